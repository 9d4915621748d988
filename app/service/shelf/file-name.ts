/** Ending of a study file. */
export const studyEnding = ".boilstudy";

/** Longest name without its ending, in characters: whole with its ending and a number it stays under every system's 255 bytes. */
const longest = 60;

/** Names that Windows keeps for devices, whatever their ending. */
const devices = /^(?:con|prn|aux|nul|com\d|lpt\d|conin\$|conout\$)$/i;

/**
 * A file name, without its ending, from the name that a person gave: letters, digits, blanks, hyphens and underscores of any
 * language are kept, everything else is dropped, so that no part of it can lead to another folder or mean something to a system.
 *
 * @param fallback what a name is called of which nothing is left
 */
export function fileNameFor(name: string, fallback: string): string {
  const kept = name
    .normalize("NFC")
    .replaceAll(/[^\p{L}\p{M}\p{N} _-]+/gu, " ")
    .replaceAll(/\s+/g, " ")
    .trim()
    .replace(/^[-\p{M}]+/u, "");
  const cut = [...kept].slice(0, longest).join("").trim();
  if (cut === "" || devices.test(cut)) return fallback;
  return cut;
}

/** The first of "name", "name 2", "name 3", … that is free. */
export function freeName(name: string, isTaken: (name: string) => boolean): string {
  for (let number = 1; ; number += 1) {
    const candidate = number === 1 ? name : `${name} ${number}`;
    if (!isTaken(candidate)) return candidate;
  }
}

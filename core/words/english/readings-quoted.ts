/** Characters that would break a line, move the cursor or turn the writing direction: shown by their code instead. */
const invisible =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ud800-\udfff]/gu;

const longest = 40;

/** A text on one line, with what cannot be seen written as a code. */
export function visibleText(text: string): string {
  return text.replace(invisible, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** What somebody wrote, in quotes: one line, shortened, with nothing invisible in it. */
export function quoted(text: string): string {
  const characters = Array.from(text.slice(0, 4 * longest));
  const short = characters.length > longest ? `${characters.slice(0, longest - 1).join("")}…` : text;
  return `“${visibleText(short)}”`;
}

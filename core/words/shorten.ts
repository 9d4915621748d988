/** A name cut to a length that a sentence can bear, on whole characters; the tables hold the whole of it. */
export function shorten(name: string, longest = 80): string {
  const characters = [...name];
  return characters.length <= longest ? name : `${characters.slice(0, longest - 1).join("")}…`;
}

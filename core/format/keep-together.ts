/** Numbers and what belongs to them, kept on one line: a no-break space before a per cent sign and about a plus-minus. */
export function keepTogether(text: string): string {
  return text.replace(/(\d) %/g, "$1\u00a0%").replaceAll(" ± ", "\u00a0±\u00a0");
}

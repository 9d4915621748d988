/** A name that somebody gave, on one line and in its own direction; the whole of it in its title. */
export function Name({ text, className = "" }: { text: string; className?: string }) {
  return (
    <bdi className={`name ${className}`} title={text}>
      {text}
    </bdi>
  );
}

/** The same in full: long names are scrolled. The place can be reached by keyboard only where there is something to scroll. */
export function FullName({ text }: { text: string }) {
  return text.length > 400 ? (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard.
    <bdi className="full-name" tabIndex={0}>
      {text}
    </bdi>
  ) : (
    <bdi>{text}</bdi>
  );
}

/** Letters that run from right to left, and marks that turn the direction of what follows. */
const turns = /[\u0590-\u08ff\u200e\u200f\u202a-\u202e\u2066-\u2069\ufb1d-\ufdff\ufe70-\ufefc]/;

/**
 * Both ends of a text that is too long for a list of choices or a sentence; where it may turn the direction of what stands around it, between
 * the marks that keep that inside (first strong isolate, pop directional isolate: Unicode Standard Annex 9).
 */
export function shortened(text: string, length = 64): string {
  const short = text.length <= length ? text : `${text.slice(0, length - 16)} … ${text.slice(-12)}`;
  return turns.test(short) ? `\u2068${short}\u2069` : short;
}

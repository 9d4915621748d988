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

/** Both ends of a text that is too long for a list of choices. */
export function shortened(text: string, length = 64): string {
  return text.length <= length ? text : `${text.slice(0, length - 16)} … ${text.slice(-12)}`;
}

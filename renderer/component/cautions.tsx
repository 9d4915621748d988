import { useWords } from "../state/language.tsx";

/** What can hurt, and what a boil test does not tell. */
export function Cautions() {
  const { cautions, help } = useWords();
  return (
    <section className="cautions" aria-labelledby="cautions-title">
      <h2 id="cautions-title">{help.cautions}</h2>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}

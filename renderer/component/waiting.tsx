import { useWords } from "../state/language.tsx";

export function Waiting() {
  return (
    <p className="soft" role="status">
      {useWords().waiting}
    </p>
  );
}

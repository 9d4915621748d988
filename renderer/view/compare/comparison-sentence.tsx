import type { QuantityChoiceView, VariantView } from "../../../app/contract/index.ts";
import { Pick } from "../../component/pick.tsx";
import { useWords } from "../../state/language.tsx";
import { phaseOfKey } from "./quantity-key.ts";

interface Chosen {
  readonly quantity: string;
  /** null: every variant against the baseline. */
  readonly variant: string | null;
  readonly baseline: string;
}

/** No variant is called so: names are never empty. */
const every = "";

/** The question as a sentence whose words can be changed. The variant that is chosen takes the other's place if they were the same. */
export function ComparisonSentence({
  chosen,
  quantities,
  variants,
  offersEvery = false,
  onChoose,
}: {
  chosen: Chosen;
  quantities: readonly QuantityChoiceView[];
  variants: readonly VariantView[];
  /** Whether all variants can be chosen at once. */
  offersEvery?: boolean;
  onChoose: (chosen: Chosen) => void;
}) {
  const { compare: words, phase: phaseName } = useWords();
  const options = variants.map((variant) => ({ value: variant.name, label: variant.name }));
  const all = offersEvery && variants.length > 2 ? [{ value: every, label: words.everyVariant }] : [];
  const choose = (variant: string | null, baseline: string) => onChoose({ ...chosen, variant, baseline });
  return (
    <p className="sentence">
      {words.compare}{" "}
      <Pick
        label={words.quantity}
        value={chosen.quantity}
        options={quantities.map((quantity) => {
          const phase = phaseOfKey(quantity.key);
          return {
            value: quantity.key,
            label: quantity.label,
            group: phase === null ? words.wholeRun : phaseName(phase),
          };
        })}
        onPick={(quantity) => onChoose({ ...chosen, quantity })}
      />{" "}
      {words.of}{" "}
      <Pick
        label={words.variant}
        value={chosen.variant ?? every}
        options={[...all, ...options]}
        onPick={(variant) => {
          if (variant === every) return choose(null, chosen.baseline);
          const swapped = chosen.variant ?? variants.find(({ name }) => name !== variant)?.name ?? chosen.baseline;
          choose(variant, variant === chosen.baseline ? swapped : chosen.baseline);
        }}
      />{" "}
      {words.against}{" "}
      <Pick
        label={words.baseline}
        value={chosen.baseline}
        options={options}
        onPick={(baseline) => choose(baseline === chosen.variant ? chosen.baseline : chosen.variant, baseline)}
      />
    </p>
  );
}

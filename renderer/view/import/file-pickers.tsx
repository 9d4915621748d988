import { FilePicker } from "../../component/file-picker.tsx";
import { Name } from "../../component/name.tsx";
import type { ImportDesk } from "../../state/import-desk.ts";
import { useWords } from "../../state/language.tsx";

/** Where files come in: dropped anywhere on the window, or picked here. */
export function FilePickers({ desk }: { desk: ImportDesk }) {
  const words = useWords().importing;
  const isEmpty = desk.view === null && desk.readings === null;
  const readingsName = desk.view?.readingsFile ?? desk.readings?.name;
  const settingsName = desk.view?.settingsFile ?? desk.settings?.name;
  return (
    <section className={isEmpty ? "drop" : "drop drop-small"}>
      {isEmpty ? (
        <p className="voice drop-words">
          {words.drop} <span className="soft">{words.dropOr}</span>
        </p>
      ) : (
        <dl className="import-files">
          <dt className="soft">{words.checkedFile}</dt>
          <dd>
            <Name text={readingsName ?? ""} />
          </dd>
          <dt className="soft">{words.checkedSettings}</dt>
          <dd>{settingsName === undefined ? words.noSettings : <Name text={settingsName} />}</dd>
        </dl>
      )}
      <div className="acts">
        <FilePicker
          label={isEmpty ? words.pickReadings : words.pickOther}
          accept=".csv,.tsv,.txt,text/csv"
          isMain={isEmpty}
          onPick={desk.take}
        />
        {(isEmpty || desk.readings !== null) && (
          <FilePicker
            label={settingsName === undefined ? words.pickSettings : words.pickOtherSettings}
            accept=".json,application/json"
            isMain={false}
            onPick={desk.take}
          />
        )}
        {!isEmpty && (
          <button type="button" className="plain" onClick={desk.putAway}>
            {words.startOver}
          </button>
        )}
      </div>
      {isEmpty && (
        <p className="soft">
          {desk.settings === null ? words.settingsOptional : `${words.checkedSettings}: ${desk.settings.name}`}{" "}
          {words.safe}
        </p>
      )}
    </section>
  );
}

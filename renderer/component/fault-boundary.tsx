import { Component, type ReactNode } from "react";
import { defaultLocale, wordsFor } from "../../core/index.ts";

/** A fault of the page itself: says so instead of leaving a blank sheet. React asks for a class here. */
export class FaultBoundary extends Component<{ children: ReactNode }, { fault: string | null }> {
  override state: { fault: string | null } = { fault: null };

  static getDerivedStateFromError(error: unknown) {
    return { fault: error instanceof Error ? error.message : String(error) };
  }

  override render() {
    if (this.state.fault === null) return this.props.children;
    const words = wordsFor(defaultLocale).screens.trouble;
    return (
      <main className="sheet">
        <div className="mark prose" role="alert">
          <b>{words.broken}</b>
          <p>{words.brokenRemedy}</p>
          <p>{this.state.fault}</p>
          <button type="button" className="act quiet" onClick={() => location.reload()}>
            {words.reload}
          </button>
        </div>
      </main>
    );
  }
}

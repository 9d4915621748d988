import "@fontsource-variable/source-sans-3/wght.css";
import "@fontsource-variable/source-sans-3/wght-italic.css";
import "@fontsource-variable/source-serif-4/wght.css";
import "@fontsource-variable/source-serif-4/wght-italic.css";
import "./style/tokens.css";
import "./style/base.css";
import "./style/cover.css";
import "./style/study.css";
import "./style/grid.css";
import "./style/runs.css";
import "./style/import.css";
import "./style/compare.css";
import "./style/report.css";
import "./style/change.css";
import "./style/bench.css";
import "./style/bench-forms.css";
import "./style/set-up.css";
import "./style/questions.css";
import "./style/uncertainty.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { takeEntrance } from "./api.ts";
import { App } from "./app.tsx";
import { FaultBoundary } from "./component/fault-boundary.tsx";
import { startTheme } from "./state/theme.ts";

takeEntrance();
startTheme();
const root = document.getElementById("root");
if (root !== null) {
  createRoot(root).render(
    <StrictMode>
      <FaultBoundary>
        <App />
      </FaultBoundary>
    </StrictMode>,
  );
}

import { render } from "preact";
import { useEffect, useState } from "preact/hooks";
import { core, coreAtRest } from "./core/core.ts";
import { BuildScreen } from "./build/screen.tsx";
import { AttemptScreen } from "./drill/attempt.tsx";
import { AttemptsScreen } from "./drill/attempts.tsx";
import { AuthorScreen } from "./drill/author.tsx";
import { DrillsScreen } from "./drill/list.tsx";
import { ShortScreen } from "./drill/short.tsx";
import { DeletedScreen } from "./keep/deleted.tsx";
import { Full } from "./keep/full.tsx";
import { PhotoScreen } from "./keep/photo.tsx";
import { KeptScreen } from "./keep/screen.tsx";
import { watchOver } from "./keep/watch.ts";
import { goOffline } from "./offline/offline.ts";
import { IsolateTargets } from "./isolate/targets.tsx";
import { SettingsScreen } from "./manners/settings.tsx";
import { MeterScreen } from "./meter/meter.tsx";
import { PanelScreen } from "./panel/panel.tsx";
import { PanelsScreen } from "./panel/panels.tsx";
import { Doors } from "./receive/doors.tsx";
import { PaperScreen } from "./receive/paper.tsx";
import { ReceivedScreen } from "./receive/screen.tsx";
import { JobScreen } from "./trace/job.tsx";
import { Later } from "./ui/later.tsx";
import { useRoute, type Route } from "./ui/route.ts";
import { applyTheme } from "./ui/theme.tsx";
import { Notice, type News } from "./offline/notice.tsx";
import { WhatIfScreen } from "./whatif/whatif.tsx";
import "./style/all.css";

// What the first screen does not wait for: codes bring libraries of their own, and
// a record is written when the search is over.
const leavingScreen = async () => (await import("./record/leaving.tsx")).LeavingScreen;
const recordScreen = async () => (await import("./record/screen.tsx")).RecordScreen;
const shareScreen = async () => (await import("./share/screen.tsx")).ShareScreen;
const scanScreen = async () => (await import("./scan/screen.tsx")).ScanScreen;

function App() {
  const route = useRoute();
  const [news, setNews] = useState<News>({ ready: false, update: null });
  useEffect(() => {
    // Keeping the page for later fetches all of it once more: not while somebody
    // waits for the first answer.
    void coreAtRest().then(() =>
      goOffline({
        ready: () => setNews((before) => ({ ...before, ready: true })),
        update: (accept) => setNews((before) => ({ ...before, update: accept })),
      }),
    );
  }, []);
  return (
    <>
      <Notice
        news={news}
        inJob={route.at === "job" || route.at === "leaving"}
        dismiss={() => setNews((before) => ({ ...before, ready: false }))}
      />
      <Full />
      <Doors route={route} />
      <Where route={route} />
    </>
  );
}

function Where({ route }: { route: Route }) {
  switch (route.at) {
    case "panels":
      return <PanelsScreen />;
    case "kept":
      return <KeptScreen />;
    case "deleted":
      return <DeletedScreen />;
    case "settings":
      return <SettingsScreen />;
    case "photo":
      return <PhotoScreen key={route.photo} photo={route.photo} />;
    case "paper":
      return <PaperScreen key={route.paper} paper={route.paper} />;
    case "received":
      return <ReceivedScreen key={route.id} id={route.id} />;
    case "panel":
      return <PanelScreen key={route.panel} panel={route.panel} view={route.view} />;
    case "build":
      return <BuildScreen panel={route.panel} />;
    case "whatif":
      return <WhatIfScreen key={route.panel} panel={route.panel} fault={route.fault} view={route.view} />;
    case "drills":
      return <DrillsScreen />;
    case "attempts":
      return <AttemptsScreen />;
    case "short":
      return <ShortScreen route={route} />;
    case "author":
      return <AuthorScreen key={route.fault} panel={route.panel} fault={route.fault} />;
    case "drill":
      return <AttemptScreen key={route.attempt} attempt={route.attempt} view={route.view} />;
    case "meter":
      return <MeterScreen key={route.panel} route={route} />;
    case "isolate":
      return <IsolateTargets key={route.panel} panel={route.panel} refs={route.refs} />;
    case "share":
      return <Later key={`${route.kind} ${route.id}`} load={shareScreen} kind={route.kind} id={route.id} />;
    case "scan":
      return <Later load={scanScreen} />;
    case "job":
      return <JobScreen key={route.job} job={route.job} view={route.view} />;
    case "leaving":
      return <Later key={route.job} load={leavingScreen} job={route.job} />;
    case "record":
      return <Later key={route.job} load={recordScreen} job={route.job} />;
  }
}

core.start(); // while the first screen is drawn
applyTheme();
watchOver();
const root = document.getElementById("app");
if (root) render(<App />, root);

// What the service worker has to say, outside a job only.
import { useState } from "preact/hooks";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import type { Accept } from "./offline.ts";

export interface News {
  ready: boolean;
  update: Accept | null;
}

interface Props {
  news: News;
  inJob: boolean;
  dismiss: () => void;
}

export function Notice({ news, inJob, dismiss }: Props) {
  const [otherTabs, setOtherTabs] = useState(false);
  const { update } = news;
  if (inJob) return null;
  return (
    <div class="notices" role="status">
      {news.ready && (
        <p class="notice" data-news="offline">
          <span>{say("page.ready-offline")}</span>
          <button type="button" class="square" aria-label={say("page.close")} onClick={dismiss}>
            <Icon name="close" />
          </button>
        </p>
      )}
      {update && (
        <p class="notice" data-news="update">
          <span>{say(otherTabs ? "page.close-other-tabs" : "page.update-waits")}</span>
          <button
            type="button"
            class="second"
            onClick={() => void update().then((how) => setOtherTabs(how === "other-tabs"))}
          >
            {say("page.update-now")}
          </button>
        </p>
      )}
    </div>
  );
}

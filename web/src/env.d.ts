/** What this page was built from; the core says the same or is refused. */
declare const __VERSION__: string;

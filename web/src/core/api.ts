// Generated from the Go types of package api: "make types". Do not edit.

export interface Seam {
  request: Request;
  response: Response;
}
export interface Request {
  op: string;
  lang?: string;
  session?: number;
  demo?: string;
  name?: string;
  text?: string;
  at?: string;
  onset?: string;
  faults?: string[];
  mode?: string;
  red?: string;
  black?: string;
  load?: boolean;
  my_meter?: {
    [k: string]: number;
  };
  each?: string[];
  refs?: string[];
  observations?: Observations;
  edits?: DraftEdit[];
  word?: string;
  all?: boolean;
  budget?: number;
  acts?: DrillAct[];
  seed?: number;
  form?: string;
  marks?: DrillMarks;
  history?: Earlier[];
  job?: Job;
  as?: string;
  paper?: string;
  size?: number;
  editions?: string[];
  other?: string;
  base?: string;
  choices?: {
    [k: string]: string;
  };
}
export interface Observations {
  dead?: string[];
  works?: string[];
  sees?: Look[];
  readings?: Reading[];
}
export interface Look {
  ref: string;
  state: string;
  at?: string;
}
export interface Reading {
  mode: string;
  red: string;
  black: string;
  value: number | null;
  shown?: string;
  at?: string;
}
export interface DraftEdit {
  op: string;
  as_found?: boolean;
  ref?: string;
  name?: string;
  about?: string;
  label?: string;
  word?: string;
  kind?: string;
  count?: number;
  first?: string;
  step?: number;
  from?: string;
  to?: string;
  list?: string[];
  level?: number;
  side?: string;
  end?: string;
  fuse?: string;
  indicator?: string;
  tag?: string;
  at?: string;
  process?: string;
  ratings?: {
    [k: string]: string;
  };
  contacts?: string[];
  channels?: number;
  clear?: string[];
  size?: string;
  length?: string;
  colour?: string;
  cable?: string;
  core?: string;
  voltage?: string;
  frequency?: string;
  earthing?: string;
  impedance?: string;
  supply?: string;
  positions?: {
    [k: string]: string;
  };
  steps?: string[];
  note?: string;
  by?: string;
  when?: string;
}
export interface DrillAct {
  kind: string;
  thing?: string;
  step?: string;
  mode?: string;
  red?: string;
  black?: string;
  why?: string;
  class?: string;
  seconds?: number;
}
export interface DrillMarks {
  each?: string[];
  choice: number;
  means?: number[][];
}
export interface Earlier {
  when?: string;
  faults: string[];
}
export interface Job {
  format: string;
  version: number;
  title: string;
  complaint?: string;
  started?: string;
  ended?: string;
  minutes?: number;
  who?: string;
  at?: string;
  panel?: Panel;
  left?: Edit[];
  dead?: string[];
  works?: string[];
  steps?: JobStep[];
  cause?: Cause;
  repair?: string;
  temporary?: Temporary[];
  checks?: JobCheck[];
  photos?: Photo[];
  notes?: JobNote[];
}
export interface Panel {
  format: string;
  version: number;
  name: string;
  about?: string;
  editions?: string[];
  mains?: Mains[];
  strips?: Strip[];
  parts?: Part[];
  wires?: Wire[];
  conditions?: Condition[];
  found?: Edit[];
}
export interface Mains {
  ref: string;
  voltage: string;
  frequency: string;
  earthing: string;
  impedance?: string;
  from?: string;
}
export interface Strip {
  ref: string;
  label?: string;
  blocks: Block[];
  jumpers?: Jumper[];
}
export interface Block {
  no: string;
  type: string;
  fuse?: string;
  indicator?: string;
  label?: string;
}
export interface Jumper {
  blocks: string[];
  level?: number;
  side?: string;
}
export interface Part {
  ref: string;
  kind: string;
  tag?: string;
  label?: string;
  at?: string;
  ratings?: {
    [k: string]: string;
  };
  contacts?: string[];
  channels?: number;
  process?: string;
}
export interface Wire {
  no: string;
  from: string;
  to: string;
  size?: string;
  length?: string;
  colour?: string;
  cable?: string;
  core?: string;
}
export interface Condition {
  name: string;
  about?: string;
  set?: {
    [k: string]: string;
  };
  steps?: string[];
}
export interface Edit {
  op: string;
  wire?: string;
  end?: string;
  point?: string;
  add?: Wire;
  part?: Part;
  strip?: string;
  jump?: Jumper;
  block?: Block;
  note?: string;
  by?: string;
  when?: string;
}
export interface JobStep {
  when?: string;
  kind: string;
  mode?: string;
  red?: string;
  black?: string;
  ref?: string;
  with?: string;
  shown?: string;
  expected?: string;
  why?: string;
  text?: string;
  photo?: string;
}
export interface Cause {
  faults?: string[];
  place?: string;
  text?: string;
}
export interface Temporary {
  what: string;
  where: string;
  placed?: string;
  back?: string;
  note?: string;
}
export interface JobCheck {
  text: string;
  done?: string;
}
export interface Photo {
  name: string;
  of?: string;
  about?: string;
}
export interface JobNote {
  when?: string;
  text: string;
}
export interface Response {
  error?: Error;
  progress?: Progress;
  hello?: Hello;
  opened?: Opened;
  problems?: Problems;
  faults?: Faults;
  state?: State;
  whatif?: WhatIf;
  sweep?: Sweep;
  meter?: Meter;
  my_meter?: MyMeter;
  predict?: Predict;
  isolate?: Isolate;
  find?: Find;
  edited?: Edited;
  guesses?: Guesses;
  conditions?: Conditions;
  record?: Record;
  packed?: Packed;
  unpacked?: Unpacked;
  diff?: Diff;
  merge?: Merge;
  drills?: Drills;
  drill?: Drill;
  drill_state?: DrillState;
  drill_debrief?: DrillDebrief;
  drill_authored?: DrillAuthored;
  drill_short?: DrillShort;
}
export interface Error {
  code: string;
  args: string[];
  text: string;
  hint?: string;
  choices?: string[];
  edit?: number;
  problems?: Problem[];
}
export interface Problem {
  line: number;
  col: number;
  path: string;
  severity: string;
  code: string;
  args: string[];
  text: string;
  hint: string;
}
export interface Progress {
  done: number;
  total: number;
}
export interface Hello {
  version: string;
  demos: string[];
}
export interface Opened {
  session: number;
  name: string;
  about: string;
  document: string;
  problems: Problem[];
  conditions: ConditionDef[];
  strips: StripView[];
  parts: PartView[];
  devices: DeviceDef[];
  wires: WireView[];
  points: PointDef[];
  cautions: Text[];
}
export interface ConditionDef {
  name: string;
  about: string;
  steps: string[];
}
export interface StripView {
  ref: string;
  label: string;
  blocks: BlockView[];
}
export interface BlockView {
  ref: string;
  no: string;
  type: string;
  symbol: string;
  label: string;
  fuse: string;
  levels: LevelView[];
  faults: string[];
  isolate: boolean;
}
export interface LevelView {
  level: number;
  in: string;
  out: string;
  cut: string;
  in_wires: WireEnd[];
  out_wires: WireEnd[];
  jumper: number;
  jumper_side: string;
}
export interface WireEnd {
  no: string;
  colour: string;
  other: string;
  other_tag: string;
}
export interface PartView {
  ref: string;
  tag: string;
  kind: string;
  kind_name: string;
  symbol: string;
  label: string;
  field: boolean;
  process: string;
  terminals: TerminalView[];
  faults: string[];
}
export interface TerminalView {
  point: string;
  wires: WireEnd[];
}
export interface DeviceDef {
  ref: string;
  tag: string;
  part: string;
  label: string;
  kind_name: string;
  process: string;
}
export interface WireView {
  no: string;
  from: string;
  to: string;
  size: string;
  length: string;
  colour: string;
  cable: string;
  core: string;
  faults: string[];
}
export interface PointDef {
  point: string;
  ref: string;
  field: boolean;
}
export interface Text {
  code: string;
  args: string[];
  text: string;
}
export interface Problems {
  problems: Problem[];
  errors: number;
  warnings: number;
  notes: number;
}
export interface Faults {
  faults: FaultDef[];
}
export interface FaultDef {
  fault: string;
  thing: string;
  class: string;
  name: string;
}
export interface State {
  points: PointState[];
  devices: DeviceState[];
  lights: DeviceState[];
  flags: Text[];
}
export interface PointState {
  point: string;
  vdc: number;
  vac: number;
  vac_deg: number;
  floating: boolean;
}
export interface DeviceState {
  ref: string;
  state: string;
  text: string;
  grade: string;
  volts: number;
  amps: number;
  signal_ma: number | null;
  celsius: number | null;
}
export interface WhatIf {
  faults: FaultDef[];
  affected: Affected[];
  timeline: Event[];
  points: Moved[];
  flags: Text[];
  cautions: Text[];
  text: string;
}
export interface Affected {
  ref: string;
  tag: string;
  label: string;
  effect: string;
  text: string;
  was: DeviceState;
  now: DeviceState;
  why: Text[];
  process: string;
}
export interface Event {
  ms_min: number;
  ms_max: number;
  event: string;
  code: string;
}
export interface Moved {
  point: string;
  was: string;
  now: string;
}
export interface Sweep {
  rows: SweepRow[];
}
export interface SweepRow {
  fault: string;
  affected: SweepEffect[];
}
export interface SweepEffect {
  ref: string;
  effect: string;
}
export interface Meter {
  mode: string;
  red: string;
  black: string;
  value: number | null;
  unit: string;
  shown: string;
  overload: boolean;
  disturbs: Text[];
  notes: Text[];
  cautions: Text[];
  refused?: string;
  hint?: string;
  refused_code?: string;
  consequence: Text | null;
}
export interface MyMeter {
  modes: MeterMode[];
  rows: MeterDatum[];
}
export interface MeterMode {
  mode: string;
  name: string;
  probes: string;
  power_off: boolean;
}
export interface MeterDatum {
  key: string;
  name: string;
  unit: string;
  value: number;
  typical: number;
  least: number;
  most: number;
  source: string;
}
export interface Predict {
  mode: string;
  red: string;
  black: string;
  healthy: Prediction;
  rows: Prediction[];
}
export interface Prediction {
  fault: string;
  name: string;
  shown: string;
  value: number | null;
  unit: string;
  overload: boolean;
  refused?: string;
  differs: boolean;
}
export interface Isolate {
  targets: string[];
  isolated: boolean;
  open: IsolatePoint[];
  instead: IsolatePoint[];
  also_down: Affected[];
  sources: Reach[];
  prove: Proof[];
  cautions: Text[];
  text: string;
}
export interface IsolatePoint {
  point: string;
  how: string;
  code: string;
  lockable: boolean;
  amps: number;
  first: string;
  points: string[];
  step: string;
}
export interface Reach {
  ref: string;
  code: string;
  text: string;
  prevents: boolean;
}
export interface Proof {
  red: string;
  black: string;
  red_tip: string;
  black_tip: string;
  modes: string[];
  before: string[];
  after: string[];
  live: boolean;
  text: string;
}
export interface Find {
  status: string;
  text: string;
  suspects: Suspect[];
  next: Next | null;
  misfit: Text | null;
  checklist: Text[];
  all?: Hypo[];
}
export interface Suspect {
  faults: string[];
  names: string[];
  repair: string;
  place: string;
  points: string[];
  probability: number;
  consistent: boolean;
  silent: boolean;
  evidence: Text[];
}
export interface Next {
  kind: string;
  mode: string;
  red: string;
  black: string;
  red_tip: string;
  black_tip: string;
  ref: string;
  ref_tip: string;
  with: string;
  with_text: string;
  expect: string;
  minutes: number;
  bits: number;
  outcomes: Outcome[];
  cautions: Text[];
  text: string;
}
export interface Outcome {
  value: number | null;
  state: string;
  low: number;
  high: number;
  unit: string;
  shown: string;
  text: string;
  probability: number;
  healthy: boolean;
  suspects: number[];
}
export interface Hypo {
  fault: string;
  probability: number;
  consistent: boolean;
  worst_sigma: number;
}
export interface Edited {
  document: string;
  made: Made[];
  problems: Problem[];
  errors: number;
  warnings: number;
  notes: number;
  opened: Opened | null;
}
export interface Made {
  edit: number;
  ref: string;
  code: string;
  args: string[];
  text: string;
}
export interface Guesses {
  guesses: Candidate[];
}
export interface Candidate {
  kind: string;
  kind_name: string;
  block: boolean;
  ref: string;
  tag: string;
  label: string;
  at: string;
  fuse: string;
  ratings: {
    [k: string]: string;
  };
  channels: number;
  why: Text;
}
export interface Conditions {
  conditions: ConditionView[];
  things: Movable[];
}
export interface ConditionView {
  name: string;
  about: string;
  kept: boolean;
  steps: StepView[];
}
export interface StepView {
  step: string;
  text: string;
}
export interface Movable {
  ref: string;
  tag: string;
  label: string;
  kind_name: string;
  group: string;
  analogue: boolean;
  positions: PositionView[];
  rest: string;
  stands: Stand[];
}
export interface PositionView {
  name: string;
  text: string;
  step: StepView;
}
export interface Stand {
  key: string;
  position: string;
}
export interface Record {
  document: string;
  job: Job;
  as: string;
  content: string;
  type: string;
  open: Text[];
  title: string;
  sections: Section[];
  caution: string;
  signature: string;
  left: string;
  earlier: Earlier | null;
}
export interface Section {
  code: string;
  title: string;
  lines: Line[];
}
export interface Line {
  when: string;
  what: string;
  shown: string;
  expected: string;
  note: string;
  open: boolean;
}
export interface Packed {
  link: string;
  parts: string[];
  bytes: number;
  document: string;
  edition: string;
}
export interface Unpacked {
  kind: string;
  name: string;
  document: string;
  digest: string;
  edition: string;
  editions: string[];
  panel: string;
  count: number;
  have: number[];
  missing: number[];
  damaged: number;
  foreign: number;
  text: Text;
}
export interface Diff {
  same: boolean;
  differences: Difference[];
}
export interface Difference {
  path: string;
  what: string;
  thing: string;
  field: string;
  was: string;
  is: string;
  code: string;
  args: string[];
  text: string;
}
export interface Merge {
  document: string;
  digest: string;
  taken: Difference[];
  conflicts: Conflict[];
  open: number;
  problems: Problem[];
}
export interface Conflict {
  path: string;
  what: string;
  thing: string;
  field: string;
  was: string;
  is: string;
  code: string;
  args: string[];
  text: string;
  base: string;
  taken: string;
  both: boolean;
  chosen: boolean;
}
export interface Drills {
  drills: DrillDef[];
}
export interface DrillDef {
  demo: string;
  name: string;
  grade: number;
  panel: string;
  complaint: string;
}
export interface Drill {
  session: number;
  name: string;
  grade: number;
  seed: number;
  complaint: string;
  at: string;
  dead: string[];
  works: string[];
  sees: DrillSeen[];
  reads: DrillRead[];
  questions: string[];
  goals: string[];
  marked: string[];
  whys: DrillChoice[];
  classes: DrillChoice[];
  gates: DrillGate[];
  panel: Opened | null;
  state: DrillState | null;
}
export interface DrillSeen {
  ref: string;
  state: string;
  text: string;
}
export interface DrillRead {
  mode: string;
  red: string;
  black: string;
  shown: string;
}
export interface DrillChoice {
  code: string;
  text: string;
}
export interface DrillGate {
  gate: string;
  effect: string;
  text: string;
  act: number;
}
export interface DrillState {
  log: DrillEntry[];
  refused: Error | null;
  ended: string;
  minutes: number;
  powered: boolean;
  lifted: string[];
  gates: DrillGate[];
  offers: DrillOffer[];
}
export interface DrillEntry {
  act: DrillAct;
  text: string;
  seen: Text[];
  reading: DrillMeter | null;
  minutes: number;
  gates: string[];
}
export interface DrillMeter {
  value: number | null;
  unit: string;
  shown: string;
}
export interface DrillOffer {
  kind: string;
  text: string;
  targets: string[];
}
export interface DrillDebrief {
  result: string;
  text: string;
  truth: FaultDef[];
  because: string;
  parts: DrillPart[];
  gates: DrillGate[];
  steps: DrillStep[];
  plan: DrillPlan[];
  plan_minutes: number;
  lessons: Text[];
  traps: Text[];
  drawing: Text[];
  explanation: string;
  sources: string[];
  next_seed: number;
}
export interface DrillPart {
  code: string;
  text: string;
  points: number;
  of: number;
  facts: Text[];
}
export interface DrillStep {
  entry: number;
  verdict: string;
  text: string;
  why: string;
  bits: number;
  before: number;
  after: number;
  alive: string[];
  best: Next | null;
}
export interface DrillPlan {
  text: string;
  with: string;
  shown: string;
}
export interface DrillAuthored {
  problems: Problem[];
  steps: number;
  readings: number;
  minutes: number;
  alike: number;
  suspects: number;
  found: boolean;
  traps: Text[];
  grade: number;
  again: number;
  sealed: string;
}
export interface DrillShort {
  form: string;
  seed: number;
  text: string;
  given: Text[];
  items: DrillItem[];
  answers: DrillChoice[];
  options: DrillOption[];
  suspects: string[];
  marks: DrillMark[];
  right: number;
  truth: string;
}
export interface DrillItem {
  text: string;
  fault: string;
  red: string;
  black: string;
}
export interface DrillOption {
  text: string;
  outcomes: string[];
}
export interface DrillMark {
  right: boolean;
  want: string;
  text: string;
}

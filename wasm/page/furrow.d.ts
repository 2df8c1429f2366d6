/**
 * furrow in a browser or in any other host of WebAssembly: one asynchronous step, `load`, then synchronous calls. All lengths and heights are
 * micrometres. What cannot be done is thrown as a FurrowError; nothing is sent anywhere. The types need no library of a browser's or node's.
 */

/** A profile as a call takes it: heights at equal spacing; NaN marks a point without a height. Heights of another kind, and in an array
 * anything that is not a number, are refused with the kind request. */
export interface GivenProfile {
  readonly z: Float64Array | Float32Array | Int32Array | Int16Array | readonly number[];
  readonly spacing: number;
  readonly name?: string;
}

/** A profile as furrow gives it. */
export interface Profile extends GivenProfile {
  readonly z: Float64Array;
}

export type Letter = 'R' | 'P' | 'W';
export type Input = 'raw' | 'levelled' | 'filtered';

// symbols: made by go test ./wasm -run TestDeclarations -update
/** Symbols of the catalogue, with R for the letter of the profile and without arguments. */
export type ParameterSymbol =
  | 'Ra' | 'Rq' | 'Rsk' | 'Rku' | 'Rp' | 'Rv' | 'Rz' | 'Rzx' | 'Rt' | 'Rpt' | 'Rvt' | 'Rsm' | 'Rsmx' | 'Rsmq' | 'Rc'
  | 'Rcx' | 'Rcq' | 'Rpc' | 'Rdq' | 'Rda' | 'Rdt' | 'Rdl' | 'Rdr' | 'Rmr' | 'Rmc' | 'Rdc' | 'Rk' | 'Rpk' | 'Rvk'
  | 'Rpkx' | 'Rvkx' | 'Rmrk1' | 'Rmrk2' | 'Rak1' | 'Rak2' | 'Rpq' | 'Rvq' | 'Rmq' | 'Rvm' | 'Rvv' | 'Rvmp' | 'Rvmc'
  | 'Rvvc' | 'Rvvv' | 'Ral' | 'Rsw' | 'WDSm' | 'WDc' | 'WDt' | 'R5p' | 'R5v' | 'R10z' | 'Rpd' | 'Rvd' | 'Rmpc'
  | 'Rmvc' | 'R' | 'AR' | 'Rx' | 'Nr' | 'SR' | 'SAR' | 'W' | 'AW' | 'Wx' | 'Wte' | 'Nw' | 'SW' | 'SAW' | 'Rke'
  | 'Rpke' | 'Rvke' | 'Mr1e' | 'Mr2e' | 'RzJIS' | 'R3z' | 'R3zm' | 'Rmax' | 'Ra75' | 'S' | 'D' | 'λa' | 'λq' | 'lr'
  | 'tp' | 'RPc' | 'Pc' | 'HSC';
// end of symbols

// filter: made by go test ./wasm -run TestDeclarations -update
/** A filter as settings state it: one of 'gaussian', 'gaussian-regression', 'robust-gaussian', 'spline', 'robust-spline', 'two-rc', 'two-rc-zero-phase', 'valley-suppression', 'disk-closing', 'disk-opening', 'segment-closing', 'segment-opening', 'disk-alternating'. */
export interface Band {
  filter?: string;
  /** wavelength at which the filter divides, λc or λs: a length above 0 */
  cutoff?: number;
  /** half width of the kernel in cut-offs: a number above 0 and at most 4 */
  support?: number;
  /** degree of the local polynomial: 0, 1 or 2 */
  order?: number;
  /** relative change of the scale at which the passes end: a number above 0 and below 1 */
  tolerance?: number;
  /** greatest number of passes: a whole number from 1 to 10000 */
  passes?: number;
  /** tension of the spline, 0 for bending alone: a number from 0 to 1 */
  tension?: number;
  /** percentage of the short waves that passes at the cut-off: 75 or 50 */
  transmission?: number;
  /** radius of the disk: a length above 0 */
  radius?: number;
  /** length of the segment: a length above 0 */
  length?: number;
  /** treatment of the ends */
  ends?: string;
  /** length of the fit of linear ends: a length above 0 */
  fit?: number;
  /** length cut away at each end: a length above 0 */
  discard_length?: number;
}
// end of filter

export interface Form {
  kind: string;
  degree?: number;
  radius?: number;
}

export interface Exclusion {
  from: number;
  to: number;
  reason: string;
}

// settings: made by go test ./wasm -run TestDeclarations -update
/** A settings file. Every key is optional; an unknown one is refused by name. */
export interface Settings {
  furrow_settings?: number;
  /** Free text. */
  name?: string;
  /** One of 'iso-21920', 'iso-4287', 'iso-12085', 'asme-b46.1', 'jis-b0601-2013', 'jis-b0601-1994', 'jis-b0601-1982'. */
  edition?: string;
  profile?: Letter;
  /** What the heights hold. */
  input?: Input;
  /** Turn the heights over, as for a replica. */
  invert?: boolean;
  /** Lengths cut from the start and the end. */
  crop?: [number, number];
  exclude?: Exclusion[];
  /** Longest gap bridged by a straight line. */
  gaps?: { bridge: number };
  form?: Form;
  /** S-filter; null switches it off. */
  short?: Band | null;
  /** L-filter; null switches it off. */
  long?: Band | null;
  waviness_limit?: number | null;
  sections?: number;
  section?: number | null;
  /** Where the first section begins, from the start of the trace; null: in the middle. */
  start?: number | null;
  /** Switches where the text of a standard leaves room: stratified_filter ('long', 'edition'), skid ('refuse', 'insist'), rsm_threshold ('rp-rv', 'rz'), rsm_mode ('complete', 'strict'), rsm_width ('part', 'element', 'none'), rzx_window ('sliding', 'sections'), sd_divisor ('n', 'n-1'), motif_base ('windows', 'peaks'), prune_reference ('rt', 'rz'), too_few ('undefined', 'use-all'). */
  choices?: Record<string, string>;
  parameters?: string[];
}
// end of settings

/** The complete settings of a result: evaluating the same trace with them gives the same values. */
export type CompleteSettings = Required<Settings>;

export interface Value {
  /** As asked for: "Rmr(0.5)". */
  readonly symbol: string;
  /** null where the profile leaves it undefined; then `reason` says why. */
  readonly value: number | null;
  readonly unit: string;
  /** One value for each section, where the parameter is evaluated section by section. */
  readonly sections: readonly (number | null)[];
  readonly source: string;
  readonly basis: string;
  /** Empty unless the value is null. */
  readonly reason: string;
  /** What the reader must know about the value; may be empty. */
  readonly note: string;
}

/** Where a setting comes from. */
export interface Origin {
  readonly text: string;
  /** Document and clause; empty where there is none. */
  readonly source: string;
  readonly basis: string;
  readonly from: 'drawing' | 'standard' | 'set here';
  readonly unconfirmed?: boolean;
}

/** The result document, as the command prints it with -json. */
export interface Result {
  readonly furrow_result: number;
  readonly settings: CompleteSettings;
  readonly origins: Readonly<Record<string, Origin>>;
  readonly profile: {
    readonly points: number;
    readonly invalid: number;
    readonly spacing: number;
    readonly sections: number;
    readonly section: number;
    readonly evaluation: number;
    readonly start: number;
  };
  readonly values: readonly Value[];
  readonly notes: readonly { readonly code: string; readonly text: string }[];
}

/** Lowest and highest point of a profile, and where they are from the start of the trace; null without a profile. */
export interface Span {
  readonly low: number | null;
  readonly lowX: number | null;
  readonly high: number | null;
  readonly highX: number | null;
}

export interface Summary {
  readonly read: Span;
  readonly form: Span;
  /** Of the fitted form, from its first to its last point. */
  readonly rise: number | null;
  /** Form left in P: the height of its least-squares parabola between middle and ends. */
  readonly bow: number | null;
  readonly primary: Span;
  readonly waviness: Span;
  readonly roughness: Span;
  readonly evaluated: Span;
}

/** A profile after one of the steps: as read, after the S-filter, the form, then P, W, R, and the profile that the family of Rk is taken from. */
export type ProfileName = 'read' | 'smoothed' | 'form' | Letter | 'stratified';

/** Profiles by name; a step that the settings leave out has none. All start at point `first` of the trace and have the same length. */
export type Profiles<N extends ProfileName = ProfileName> = { readonly [K in N]?: Float64Array };

/** Something about a trace that a person should look at, and what to do. */
export interface Observation {
  readonly code: string;
  readonly text: string;
  readonly advice: string;
}

/** What an evaluation found, without its profiles. */
export interface Found {
  readonly result: Result;
  /** Those of the result. */
  readonly values: readonly Value[];
  readonly first: number;
  /** Point of the profiles that the first section starts with; section k has the points start + k·sectionPoints on. */
  readonly start: number;
  readonly sectionPoints: number;
  readonly sections: number;
  readonly summary: Summary;
  /** What to look at before the values are believed: gaps, clipping, spikes and the like. */
  readonly findings: readonly Observation[];
  /** Why nothing could be evaluated; then every value is null with this reason. */
  readonly problem?: string;
}

/** One evaluation; every call is about this one, however many follow it. It holds a copy of the heights. After `close` every call throws with
 * the kind request. One that is forgotten needs no `close`: the module keeps the evaluations that were used last, and makes another one again
 * when it is asked about. Then the pictures of its latest comparison and verdict need these again. */
export interface Evaluation extends Found {
  /** Copies of the profiles that are named, of all without a name. */
  profiles<N extends ProfileName>(...names: readonly N[]): Profiles<N>;
  /** How a value came about. */
  construct(symbol: string): Construction;
  figure(name: EvaluationFigure, options?: FigureOptions): Figure;
  /** The verdict on this evaluation and the values typed in. A requirement that is missing, refused or open is no error: the verdict says why
   * there is none. Values or an uncertainty that cannot be read throw, with the key typed or u. */
  judge(text: string, options?: JudgeOptions): Verdict;
  /** Why two values of the trace differ. Settings that are left out are those of this evaluation. A search is a `find`, which answers with its
   * progress, and one `step` after another until the answer is the document; `stop` drops it. A step takes a little more than the milliseconds
   * that it may. */
  compare<Q extends ComparisonRequest>(request: Q): ComparisonAnswers[Q['question']];
  /** How steady a value is; it takes some thirty evaluations. */
  steady(symbol: string): Steadiness;
  /** Percent of the height of a wave of this length that reaches each profile. */
  transmit(wavelength: number): Transmitted;
  close(): void;
}

export interface Transmitted {
  readonly roughness: number | null;
  readonly waviness: number | null;
  /** Taken away by the S-filter. */
  readonly short: number | null;
}

/** Pictures of an evaluation, of its latest comparison (shares, steadiness) and of its latest verdict (decision). */
export type EvaluationFigure = 'trace' | 'form' | 'transmission' | 'waviness' | 'profile' | 'construction' | 'material' | 'strip' | 'spark' | 'shares' | 'steadiness' | 'decision';

/** Pictures of the latest check of the instrument, and of a held trace. */
export type OtherFigure = 'allowance' | 'groove' | 'budget' | 'strip' | 'spark' | 'decision';

/** Those of every picture and those of single ones; a picture has no use for some. */
export interface FigureOptions {
  /** In CSS pixels. */
  readonly width?: number;
  /** Start of the ids in the drawing, unique in the page. */
  readonly id?: string;
  /** Decimal comma. */
  readonly comma?: boolean;
  /** µin and in. */
  readonly inch?: boolean;
  /** Part drawn, from the start of the trace. */
  readonly from?: number;
  readonly to?: number;
  /** Section, step or trace picked out, from 1. */
  readonly picked?: number;
  /** Of a construction, a strip or a steadiness. */
  readonly symbol?: string;
  /** Wavelength asked for in the transmission. */
  readonly wave?: number;
  /** A held trace. */
  readonly trace?: string;
  /** Ends of the scale of heights. */
  readonly heights?: readonly [number, number];
  /** Limit of a verdict, from 0, the unit of its values, and their names. */
  readonly limit?: number;
  readonly unit?: string;
  readonly names?: readonly string[];
  /** A file of its own, with notes below. */
  readonly standalone?: boolean;
  readonly notes?: readonly string[];
}

export interface Mark {
  readonly kind: 'peak' | 'pit' | 'point' | 'line' | 'span' | 'level' | 'area';
  readonly label: string;
  readonly points: readonly (readonly [number, number])[];
}

/** How a value came about: steps to go through, and the arithmetic; `{1}` in a form stands for the first term. */
export interface Construction {
  readonly symbol: string;
  readonly unit: string;
  readonly plane: string;
  readonly result: number | null;
  /** The plane is where the marks lie: that of the construction, or one of its own. */
  readonly steps: readonly { readonly plane: string; readonly text: string; readonly section: number; readonly value: number | null; readonly marks: readonly Mark[] }[];
  readonly worked: readonly WorkedLine[];
}

/** A worked line; printed holds it as people read it, with one, two, three and four significant digits, a point as decimal mark. */
export interface WorkedLine {
  readonly symbol: string;
  readonly form: string;
  readonly terms: readonly number[];
  readonly result: number | null;
  readonly unit: string;
  readonly printed: readonly { readonly parts: readonly string[]; readonly sign: string; readonly result: string }[];
}

export interface Ref {
  readonly source: string;
  readonly basis: string;
}

/** One column of an edition's table of settings; a length of 0 means that the edition has no such thing. */
export interface Row {
  readonly name: string;
  readonly long: number;
  readonly short: number;
  readonly section: number;
  readonly sections: number;
  readonly evaluation: number;
  readonly maxSpacing: number;
  readonly tipRadius: number;
}

export interface Entry extends Ref {
  readonly symbol: string;
  readonly key: string;
  readonly over: string;
}

export interface Equation {
  readonly mathml: string;
  readonly spoken: string;
}

export interface Parameter {
  readonly symbol: ParameterSymbol;
  readonly name: string;
  readonly group: string;
  readonly unit: string;
  /** The right-hand side of the formula, in plain text. */
  readonly formula: string;
  /** All of it for the eye and for the ear. In the MathML a letter has the attribute data-letter with its key, a symbol data-symbol. */
  readonly equation: Equation;
  /** The formula as defined; empty where that is the one as computed. */
  readonly defined: Equation;
  readonly letters: readonly { readonly key: string; readonly shown: string; readonly spoken: string; readonly meaning: string }[];
  readonly sentence: string;
  /** Common practice; empty where nothing general is known. */
  readonly practice: string;
  readonly blind: string;
  readonly on: 'own' | 'stratified' | 'primary' | 'two-rc';
  /** Arguments in the order in which they are written, with what they are in words. */
  readonly args: readonly { readonly name: string; readonly unit: string; readonly text: string }[];
}

export interface Edition {
  readonly id: string;
  readonly title: string;
  readonly documents: readonly string[];
  /** The document that took its place; '' for an edition in force. */
  readonly replaced: string;
  /** Index of the row that holds when nothing chooses another. */
  readonly default: number;
  readonly rows: readonly Row[];
  readonly columns: Readonly<Record<string, Ref>>;
  /** The edition's own S-filter and L-filter, '' for none. */
  readonly short: string;
  readonly long: string;
  readonly notes: readonly string[];
  readonly symbols: Readonly<Record<Letter, readonly Entry[]>>;
}

/** One entry of a menu. */
export interface Choice {
  /** In settings. */
  readonly key: string;
  readonly name: string;
  readonly hint: string;
}

export interface Filter extends Choice {
  readonly size: 'cutoff' | 'radius' | 'length';
  /** Keys of the treatments of the ends that it has, its default first. */
  readonly ends: readonly string[];
}

export interface Catalogue {
  readonly editions: readonly Edition[];
  readonly parameters: Readonly<Record<string, Parameter>>;
  readonly filters: readonly Filter[];
  readonly ends: readonly Choice[];
  readonly forms: readonly string[];
  /** Stands beside every verdict. */
  readonly caution: string;
  /** What each unit is for those who count in inches, and how many of it one is. */
  readonly inches: Readonly<Record<string, { readonly unit: string; readonly factor: number }>>;
}

/** An invented trace of the demonstration. */
export interface Demo {
  readonly key: string;
  readonly title: string;
  readonly note: string;
  /** µm */
  readonly spacing: number;
}

/** Hints for delimited text; columns and lines count from 1. */
export interface Hints {
  x_unit?: string;
  z_unit?: string;
  decimal?: string;
  delimiter?: string;
  x_column?: number;
  z_column?: number;
  spacing?: number;
  skip_lines?: number;
  missing?: string[];
  heights?: 'column' | 'rows' | 'matrix' | 'triples';
  trace?: number;
  row?: number;
  column?: number;
  y_column?: number;
  first?: 'spacing' | 'length-count' | 'span-count';
  integrate?: boolean;
  resample?: boolean;
  blank_lines?: 'missing' | 'skip';
}

/** What a file was taken for; columns and lines count from 1, 0 where there is none. */
export interface Report {
  readonly format: string;
  readonly encoding: string;
  readonly delimiter: string;
  readonly decimal: string;
  readonly xColumn: number;
  readonly zColumn: number;
  readonly xUnit: string;
  readonly zUnit: string;
  /** What settled it: "line 3", "hint x_unit". */
  readonly xUnitBy: string;
  readonly zUnitBy: string;
  readonly spacingBy: string;
  readonly points: number;
  readonly invalid: number;
  readonly firstLine: number;
  readonly lastLine: number;
  readonly turned: boolean;
  /** Header lines that carried meaning, the first rows and the last. */
  readonly lines: readonly { readonly line: number; readonly text: string; readonly taken: string }[];
  readonly origin: number | null;
}

export interface Reading {
  readonly profile: Profile;
  readonly report: Report;
  readonly notes: readonly { readonly code: string; readonly text: string }[];
  /** Results that the file clearly states beside its heights: "Ra = 0.420 µm". What is not clear is not among them. */
  readonly results: readonly StatedResult[];
}

/** A result as a file states it. */
export interface StatedResult {
  readonly symbol: string;
  /** As printed, with its unit where that is not the one of the parameter: what a person would type. */
  readonly text: string;
  readonly profile: 'R' | 'P' | 'W';
  readonly value: number;
  readonly unit: string;
}

export interface Figure {
  readonly svg: string;
  readonly title: string;
  readonly desc: string;
  readonly caption: string;
  readonly width: number;
  readonly height: number;
  /** What the picture shows, as a table. */
  readonly numbers: { readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] };
  readonly frames: readonly Frame[];
}

/** Where a plot lies in its picture, in pixels, and what its edges stand for. */
export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly xLow: number;
  readonly xHigh: number;
  readonly yLow: number;
  readonly yHigh: number;
  readonly xLog: boolean;
}

/** One thing that a file leaves open, the hint that is asked for, and the answers: each a hint with its value, or with the unit of the number to give. */
export interface Question {
  readonly hint: keyof Hints;
  readonly text: string;
  readonly answers: readonly { readonly hint: keyof Hints; readonly value: string | number | boolean | null; readonly unit: string; readonly text: string }[];
}

/**
 * request: the call itself is wrong, such as a name that does not exist, heights that are no numbers, an evaluation that is closed;
 * settings: they cannot be followed, `key` says which; trace: the trace cannot be read or evaluated; question: the file leaves open how it is
 * to be read; file: the file is no trace, or too large; record: it is no record, or one that is refused; module: furrow.wasm was not found, is
 * not furrow's, or belongs to another version than the script; stopped: the calculation ended; internal: a fault of furrow.
 */
export type ErrorKind = 'request' | 'settings' | 'trace' | 'question' | 'file' | 'record' | 'module' | 'stopped' | 'internal';

/** An error as data. */
export interface Fault {
  readonly kind: ErrorKind;
  readonly message: string;
  /** Place in the file or the settings text, from 1, where there is one. */
  readonly line?: number | undefined;
  readonly column?: number | undefined;
  /** The setting or the hint concerned: "long.cutoff", "x_unit". */
  readonly key?: string | undefined;
  /** With kind 'question': everything that the file leaves open. */
  readonly questions?: readonly Question[] | undefined;
}

export declare class FurrowError extends Error implements Fault {
  constructor(fault: Fault);
  readonly kind: ErrorKind;
  readonly line?: number | undefined;
  readonly column?: number | undefined;
  readonly key?: string | undefined;
  readonly questions?: readonly Question[] | undefined;
}

/** A surface made up to try things out; what is left out is zero. All lengths and heights are micrometres. */
export interface Surface {
  readonly points: number;
  readonly spacing: number;
  /** Of a sine, from crest to trough, and its wavelength. */
  readonly wave?: number;
  readonly length?: number;
  /** Of turning, and the radius of the tool. */
  readonly feed?: number;
  readonly nose?: number;
  /** Rq of a random part. */
  readonly noise?: number;
  readonly scratch?: number;
  /** Percent of the length that is worn level. */
  readonly plateau?: number;
}

/** A parameter that is known before anything is evaluated; when expected, one random surface scatters around it. */
export interface Known {
  readonly symbol: string;
  readonly value: number;
  readonly unit: string;
  readonly formula: string;
  readonly expected: boolean;
}

/** How far a value moves when conditions move that the requirement does not fix. */
export interface Steadiness {
  /** Bounds as the sections move along the trace, and to how many different places. */
  readonly low: number | null;
  readonly high: number | null;
  readonly places: number;
  /** The significant digits that are sure; null where the sections have no room to move, so that nothing can be said. */
  readonly digits: number | null;
  /** Those that count enter the digits; changes of a filter do not. */
  readonly trials: readonly { readonly text: string; readonly value: number | null; readonly counts: boolean }[];
}

/** One limit of a requirement; what is open is null. */
export interface PlannedLimit {
  readonly symbol: string | null;
  readonly side: 'upper' | 'lower' | null;
  readonly limit: number | null;
  /** Number and unit as written. */
  readonly written: string;
  readonly unit: string | null;
  readonly rule: 'max' | '16%' | 'median' | null;
  readonly profile: 'R' | 'P' | 'W' | null;
  readonly class: string | null;
  readonly reading: string;
  /** Complete settings with evaluation, a and b where they exist; null while they are open. */
  readonly settings: (Settings & { readonly evaluation?: number; readonly a?: number; readonly b?: number }) | null;
  readonly origins: Readonly<Record<string, Origin>>;
  readonly trace: { readonly evaluation: number; readonly run_up: number; readonly run_out: number; readonly length: number; readonly max_spacing: number; readonly max_tip_radius: number } | null;
}

/** What the text of a drawing asks for: the document furrow_plan, with the settings to evaluate by. */
export interface Plan {
  readonly furrow_plan: 1;
  readonly text: string;
  readonly edition: string;
  readonly state: 'read' | 'ask' | 'refuse';
  readonly limits: readonly PlannedLimit[];
  /** What is open: an answer has the whole text with it, or the edition to read the text by, or both. */
  readonly questions: readonly { readonly key: string; readonly blocks: 'settings' | 'limit' | 'verdict'; readonly text: string; readonly line: number; readonly column: number;
    readonly answers: readonly { readonly key: string; readonly text: string; readonly then?: string; readonly edition?: string }[] }[];
  readonly notes: readonly string[];
  /** Where it stopped being understood, why, and what may be meant. */
  readonly refusal: { readonly line: number; readonly column: number; readonly reason: string; readonly try: string | null } | null;
  /** A settings file for the first limit and those that share it; null while it is open. */
  readonly settings: Settings | null;
}

/** A verdict as it stands in a result document. */
export type Word = 'Conforms' | 'Does not conform' | 'Not decided' | 'No verdict yet';

/** Why there is no verdict yet; keys in the order in which they are told. */
export interface Reason {
  readonly key: 'no-requirement' | 'refused' | 'requirement-open' | 'no-value' | 'file-open' | 'undefined' | 'sections' | 'deviates' | 'left-out' | 'uncertainty' | 'more';
  readonly text: string;
}

/** One word for all limits of a requirement (verdict.schema.json). */
export interface Verdict {
  readonly word: Word;
  /** Null unless the word is No verdict yet. */
  readonly why: Reason | null;
  /** All that is open; why is the first. */
  readonly open: readonly Reason[];
  readonly sentence: string;
  /** "simple acceptance", or the standard by which the uncertainty counts. */
  readonly acceptance: string;
  readonly guard: '2017' | '1998' | null;
  readonly prove: 'maker' | 'buyer' | 'none';
  /** Of the first limit. */
  readonly rule: string;
  readonly values: number;
  /** How many more values the rules ask for. */
  readonly more: number;
  /** Deviations that somebody agreed to. */
  readonly agreed: readonly { readonly key: string; readonly asked: string; readonly used: string; readonly with: string; readonly text: string }[];
  readonly limits: readonly LimitVerdict[];
  readonly caution: string;
}

export interface LimitVerdict {
  readonly symbol: string;
  readonly side: 'upper' | 'lower';
  /** Null while its unit is open. */
  readonly limit: number | null;
  /** With the digits and the unit that were written: "63 µin (1.600 µm)". */
  readonly text: string;
  readonly unit: string;
  /** The old grade of this limit of Ra. */
  readonly grade?: string;
  readonly rule: string;
  readonly word: Word;
  readonly why: Reason | null;
  readonly open: readonly Reason[];
  readonly sentence: string;
  readonly values: number;
  readonly more: number;
  /** Expanded uncertainty in the unit of the values; 0 for simple acceptance. */
  readonly u: number;
  readonly accept: number | null;
  readonly reject: number | null;
  readonly quantity: string;
  readonly value: number | null;
  readonly counted: readonly { readonly name: string; readonly value: number; readonly typed: boolean }[];
  /** The rule step by step, with numbers that are not rounded. */
  readonly log: readonly string[];
  /** Where they differ from those of the first limit. */
  readonly settings?: Settings;
}

/** The values of a held trace. */
export interface Measured {
  readonly values: readonly { readonly symbol: string; readonly value: number | null; readonly unit: string; readonly reason: string }[];
  /** How many sections the trace holds, of how many. */
  readonly sections: number;
  readonly asked: number;
  /** Length that the trace lacks; null when it is long enough. */
  readonly missing: number | null;
  /** Of the evaluated profile. */
  readonly low: number | null;
  readonly high: number | null;
  readonly problem?: string;
}

/** What is to say of the values of a series. Outliers are proposed by the test of Grubbs at 5 %, never left out. */
export interface SeriesSummary {
  readonly n: number;
  readonly mean: number | null;
  readonly s: number | null;
  readonly min: number | null;
  readonly max: number | null;
  readonly median: number | null;
  readonly outliers: readonly { readonly index: number; readonly g: number; readonly critical: number }[];
}

export interface JudgeOptions {
  /** Held and measured traces that count, in place of that of the evaluation. */
  readonly traces?: readonly string[];
  /** Judge without the trace of the evaluation. */
  readonly traceless?: boolean;
  readonly edition?: string;
  /** In place of the requirement's own, as agreed. */
  readonly rule?: string;
  /** Expanded uncertainty as typed, in the unit of the limit: "0.12"; for limits on several parameters "Rz 0.12; Ra 0.02". */
  readonly u?: string;
  readonly k?: number;
  readonly prove?: 'maker' | 'buyer' | 'none' | '';
  readonly guard?: '2017' | '1998' | '';
  /** Values without a trace: "Rz 2.9; 3.1". */
  readonly typed?: string;
  readonly agreed?: string;
  /** What files leave open: "rod-place-7.txt, unit of the heights". */
  readonly fileOpen?: readonly string[];
}

/** What a trace was read from; `digest` gives size and sha256. */
export interface FileSource {
  readonly name: string;
  readonly size: number;
  readonly sha256: string;
}

/** A trace of a sheet, without its heights; those come beside it as a Profile. */
export interface SheetTrace {
  readonly name: string;
  readonly spacing: number;
  readonly file?: FileSource | null;
  /** What the file left open and a person answered. */
  readonly hints?: Hints | null;
  /** How the file was read. */
  readonly reading?: string;
  /** Why its values do not count; empty: they do. */
  readonly left_out?: string;
  /** Where those of the sheet do not hold: the parts that are left out differ. */
  readonly settings?: Settings | null;
  readonly traced?: Readonly<{ instrument?: string; skid?: 'with' | 'without'; tip_radius?: number; cone_angle?: number; force?: number; speed?: number; direction?: string; place?: string; date?: string }>;
  /** Those of the reading. A record adds those of the evaluation; leave them out again when settings or heights have changed since. */
  readonly notes?: readonly { readonly code: string; readonly text: string }[];
  /** Written by a record; not needed to make one. */
  readonly points?: number;
  readonly heights_sha256?: string;
}

/** All that a record is made of. Every key is optional; an unknown one is refused by name. */
export interface Sheet {
  /** Of the part or the work; empty: that of the first trace. */
  readonly name?: string;
  /** Demonstration data, and no measurement. */
  readonly invented?: boolean;
  /** What the surface is judged by, each text as typed: see JudgeOptions. */
  readonly asked?: Readonly<{ text?: string; edition?: string; limit?: string; rule?: string; u?: string; k?: number; prove?: 'maker' | 'buyer' | 'none' | ''; guard?: '2017' | '1998' | ''; agreed?: string }>;
  /** Values without a trace: {text: "Rz 2.95", from: "place 6, printed by the instrument"}. */
  readonly typed?: readonly { readonly text: string; readonly from: string }[];
  /** What files leave open: "rod-place-7.txt, unit of the heights". */
  readonly file_open?: readonly string[];
  readonly settings?: Settings | null;
  /** Those of an opened record; leave them out again when settings have changed since. */
  readonly origins?: Readonly<Record<string, Origin>>;
  readonly traces?: readonly SheetTrace[];
  /** The latest check of the instrument. */
  readonly check?: { readonly name: string; readonly date: string; readonly word: 'within' | 'outside' | 'open' } | null;
  readonly budget?: { readonly symbol: string; readonly unit: string; readonly value: number; readonly u: number; readonly k: number;
    readonly lines: readonly { readonly name: string; readonly effect: number; readonly share: number; readonly source: string }[]; readonly left: readonly string[]; readonly sentence: string } | null;
  /** An empty one prints as a ruled line. What the first file says of place, direction, instrument, tip and date fills the empty ones. */
  readonly blanks?: Readonly<{ part?: string; place?: string; direction?: string; instrument?: string; tip?: string; check?: string; operator?: string; date?: string; remarks?: string }>;
  readonly notes?: readonly { readonly code: string; readonly text: string }[];
}

/** Where and when a record was made; all that depends on that. */
export interface Made {
  readonly time: string;
  readonly version: string;
  readonly platform: string;
  /** Of the record: "a94e 17c0". */
  readonly number: string;
}

/** json and html open again; article is what the page shows, without a style sheet; tsv, csv and table are for a spreadsheet; points are
 * those of each profile of every trace, as text. */
export type RecordForm = 'json' | 'html' | 'article' | 'tsv' | 'csv' | 'table' | 'points';

export interface RecordAnswer {
  readonly forms: Readonly<Partial<Record<Exclude<RecordForm, 'points'>, string>>>;
  readonly points?: readonly string[];
  readonly name: string;
  readonly made: Made;
  readonly verdict: Verdict | null;
  readonly cautions: readonly string[];
  /** Each setting in words, and where it comes from. */
  readonly settings: readonly { readonly name: string; readonly text: string; readonly from: string }[];
}

export interface OpenedRecord {
  readonly sheet: Required<Sheet>;
  readonly profiles: readonly Profile[];
  readonly made: Made;
  /** Of its verdict, as it stands there; empty without one. */
  readonly word: Word | '';
}

/** Whether every value and the verdict of a record come out the same. */
export interface Verification {
  readonly same: boolean;
  /** `text` is a sentence without its end: "Rz, trace 1, rod.csv, is 2.93 in the record and 2.92 when it is evaluated again". */
  readonly differences: readonly { readonly what: string; readonly then: string; readonly now: string; readonly text: string }[];
  /** Of the record; its version may be another one. */
  readonly made: Made;
  readonly word: Word | '';
}

/** A settings file, or a result or a record (JSON) that holds settings. */
export type SettingsIn = Settings | { readonly furrow_result: number; readonly settings: Settings } | { readonly furrow_record: number };

/** One question about the trace of the latest evaluation. */
export type ComparisonRequest =
  | { readonly question: 'shares'; readonly settings?: SettingsIn; readonly against?: SettingsIn; readonly symbol: string; readonly names?: readonly [string, string] }
  /** printed: "Rz 3.10; Ra 0.51", digits as printed; settings: what changes are counted from; most: fits to answer with, all without it */
  | { readonly question: 'find'; readonly printed: string; readonly settings?: Settings; readonly most?: number }
  | { readonly question: 'step'; readonly millis: number }
  | { readonly question: 'stop' }
  /** settings are laid over those of both readings; then nothing is judged where they deviate */
  | { readonly question: 'editions'; readonly text: string; readonly a: string; readonly b: string; readonly periodic?: boolean; readonly settings?: Settings; readonly names?: readonly [string, string] }
  | { readonly question: 'steadiness'; readonly settings?: Settings; readonly symbol?: string };

/** How far a search is, in combinations. */
export interface Progress {
  readonly progress: { readonly done: number; readonly all: number };
}

export interface ComparisonAnswers {
  shares: Shares;
  find: Progress;
  step: Progress | Finding;
  stop: Record<string, never>;
  editions: EditionsCompared;
  steadiness: SteadinessDocument;
}

/** What each change of the settings makes of a difference; the shares add up to b - a. */
export interface Shares {
  readonly furrow_shares: number;
  readonly symbol: string;
  readonly unit?: string;
  /** null where the difference cannot be shared out; then `reason` says why. */
  readonly a: number | null;
  readonly b: number | null;
  readonly sentence?: string;
  readonly changes: readonly {
    readonly key: string;
    readonly from: string;
    readonly to: string;
    /** "cut-off 2.5 mm instead of 0.8 mm" */
    readonly plain: string;
    readonly share: number;
    readonly step: number;
  }[];
  readonly reason?: string;
  readonly caution: string;
}

/** Settings that give printed values. */
export interface Fit {
  /** "cut-off 2.5 mm instead of 0.8 mm gives Rz 3.40" */
  readonly plain: string;
  /** What speaks against it. */
  readonly against: readonly string[];
  readonly changes: number;
  /** Further combinations with the same values. */
  readonly alike: number;
  readonly values: readonly { readonly symbol: string; readonly value: number }[];
  readonly settings: CompleteSettings;
}

export interface Finding {
  readonly furrow_finding: number;
  readonly outcome: 'same' | 'one' | 'many' | 'none';
  readonly sentences: readonly string[];
  readonly printed: readonly { readonly symbol: string; readonly text: string; readonly value: number; readonly half: number; readonly unit: string }[];
  readonly usual: CompleteSettings;
  /** Empty where the usual settings give none. */
  readonly values: readonly number[];
  readonly tried: number;
  readonly skipped: number;
  /** Combinations that give every printed value. */
  readonly fitting: number;
  /** Fits with different values, of which the first are listed. */
  readonly found: number;
  readonly fits: readonly Fit[];
  readonly nearest: readonly Fit[];
  readonly caution: string;
}

/** One requirement read by two editions. */
export interface EditionsCompared {
  readonly furrow_editions: number;
  readonly text: string;
  readonly readings: readonly {
    readonly edition: string;
    readonly plan: Record<string, unknown>;
    /** One of each limit. */
    readonly values: readonly Value[];
    /** null where the edition does not read the text. */
    readonly verdict: Verdict | null;
    readonly problems: readonly string[];
    /** "With 2.5 mm, Rz is 13.68 µm, which agrees with 2.5 mm." */
    readonly searches: readonly string[];
  }[];
  readonly changes: readonly { readonly limit: number; readonly key: string; readonly from: string; readonly to: string; readonly plain: string }[];
  readonly differences: readonly string[];
  /** what makes the values of the trace doubtful */
  readonly notes: readonly { readonly code: string; readonly text: string }[];
  readonly caution: string;
}

export interface SteadinessDocument {
  readonly furrow_steadiness: number;
  readonly reason?: string;
  readonly values: readonly {
    readonly symbol: string;
    readonly value: number | null;
    readonly unit: string;
    readonly low: number | null;
    readonly high: number | null;
    readonly places: number;
    /** null where the sections cannot move. */
    readonly digits: number | null;
    readonly sentence: string;
    /** The condition that moves the value most. */
    readonly most: string | null;
    readonly conditions: readonly { readonly what: string; readonly value: number | null; readonly counts: boolean }[];
  }[];
  readonly caution: string;
}

/** When, by whom and with what a check was made; `gain` is the factor that the instrument works with now. */
export interface Session {
  readonly date?: string;
  readonly operator?: string;
  readonly instrument?: string;
  readonly gain?: number;
}

/** A specimen with its certificate, in µm; `symbol` is d for the depth of type A1, whose groove is looked for without its width and centre. */
export interface Specimen {
  readonly number?: string;
  readonly type?: '' | 'A1' | 'C1' | 'C2' | 'C3' | 'C4' | 'D1' | 'D2';
  readonly symbol?: string;
  readonly value?: number;
  readonly expanded?: number;
  readonly k?: number;
  readonly groove?: number;
  readonly centre?: number;
  readonly due?: string;
  readonly remarks?: string;
}

/** What is known for a budget: heights in µm, shares as fractions; what is left out does not count. */
export interface BudgetKnown {
  readonly certificate?: number;
  readonly certificateU?: number;
  readonly certificateK?: number;
  readonly repeat?: number;
  readonly repeats?: number;
  readonly drift?: number;
  readonly noise?: number;
  readonly tip?: number;
  readonly spacing?: boolean;
  readonly cutoffs?: number;
  readonly travel?: number;
}

/** One check of the instrument. A tolerance counts beside U: a length in µm or a share; without it that for calibration. */
export type CheckRequest =
  | { readonly check: 'specimen'; readonly specimen: Specimen; readonly settings?: Settings; readonly tolerance?: Tolerance; readonly session?: Session }
  | { readonly check: 'flat'; readonly limits?: string; readonly edition?: string; readonly settings?: Settings; readonly session?: Session }
  | { readonly check: 'groove'; readonly specimen?: Specimen; readonly tolerance?: Tolerance; readonly session?: Session }
  | { readonly check: 'budget'; readonly symbol: string; readonly budget: BudgetKnown; readonly settings?: Settings; readonly session?: Session }
  /** What a depth and a fine profile of the same day say of the tip. */
  | { readonly check: 'tip'; readonly depth: Check; readonly fine: Check }
  /** Results of one specimen in the order of their dates. */
  | { readonly check: 'course'; readonly earlier: readonly { readonly date: string; readonly value: number }[] };

export interface Tolerance {
  readonly absolute?: number;
  readonly share?: number;
}

export interface CheckAnswers {
  specimen: Check;
  flat: Check;
  groove: Check;
  budget: Check;
  tip: { readonly hints: readonly string[] };
  /** A sentence where the results show a step or a drift, otherwise empty. */
  course: { readonly sentence: string };
}

/** What a check of the instrument found. A gain is proposed and never applied. */
export interface Check {
  readonly furrow_check: number;
  readonly kind: 'specimen' | 'flat' | 'groove' | 'budget';
  readonly date: string | null;
  readonly word: 'within' | 'outside' | 'small' | 'large' | 'open' | null;
  readonly sentence: string;
  readonly symbol: string;
  readonly unit: string;
  readonly values: readonly number[];
  readonly gain: number | null;
  readonly proposal: { readonly before: number; readonly factor: number; readonly low: number; readonly high: number; readonly change: number; readonly text: string } | null;
  readonly held: { readonly certificate: number; readonly deviation: number; readonly allowed: number } | null;
  readonly lines: readonly {
    readonly name: string;
    readonly value: number | null;
    readonly unit: string;
    /** Of the variance, in a budget. */
    readonly share: number | null;
    readonly source: string;
    readonly basis: string;
  }[];
  readonly settings: readonly string[];
  readonly notes: readonly string[];
  readonly instrument: string | null;
  readonly operator: string | null;
  readonly caution: string;
}

/** The check register as it came out here (selfcheck.schema.json), and the validation sheet as an element and as a page. */
export interface SelfcheckAnswer {
  readonly document: {
    readonly furrow_selfcheck: number;
    readonly version: string;
    readonly platform: string;
    readonly checks: readonly {
      readonly id: string;
      readonly what: string;
      readonly area: string;
      readonly subject: string;
      readonly source: string;
      readonly basis: string;
      readonly expected: number;
      readonly found: number | null;
      readonly tolerance: number;
      readonly reason: string;
      readonly word: 'agrees' | 'differs';
      readonly fault: string | null;
    }[];
    readonly passed: number;
    readonly failed: number;
    readonly caution: string;
  };
  readonly article: string;
  readonly page: string;
}

/** A field of an ingredient of a made surface, or another thing that can move; `id` is the key of `set` and the id of its control. */
export interface StudyField {
  readonly id: string;
  readonly words: string;
  readonly unit: string;
  /** The range of its slider, and the lowest and highest typed value. */
  readonly low: number;
  readonly high: number;
  readonly least: number;
  readonly most: number;
  readonly first: number;
  readonly log: boolean;
  readonly whole: boolean;
}

/** An ingredient: `most` of its kind can be on one surface. The fields of the second scratch have ids with -2- for -1-. */
export interface StudyIngredient {
  readonly kind: string;
  readonly words: string;
  readonly most: number;
  readonly formula: string;
  readonly fields: readonly StudyField[];
}

/** An ingredient in use: its values in the order of its fields. */
export interface StudyPart {
  readonly kind: string;
  readonly values: readonly number[];
}

/** An exercise, as the link holds it. Lengths along the trace in mm, but spacing and widths in µm; heights in µm. What is left out has its first value. */
export interface StudyState {
  /** As the edition writes it, with arguments: 'Rz', 'Rmr(0.5)'. */
  readonly symbol?: string;
  readonly edition?: string;
  readonly letter?: Letter;
  readonly surface?: 'demo' | 'made' | 'typed' | 'sheet';
  /** Key of a demonstration. */
  readonly demo?: string;
  /** Of a made surface; the spacing also of typed heights, 100 there. */
  readonly length?: number;
  readonly spacing?: number;
  readonly parts?: readonly StudyPart[];
  readonly heights?: readonly number[];
  /** What typed heights count from: as typed, their mean, their least-squares line. */
  readonly line?: 'zero' | 'mean' | 'line';
  /** Ordinates moved: number of the point of the surface from 1, raised by µm, points moved together. At most 8. */
  readonly moved?: readonly { readonly point: number; readonly by: number; readonly width: number }[];
  /** Every second or fourth point alone. */
  readonly every?: 1 | 2 | 4;
  readonly turned?: boolean;
  /** None, those of a setting class ('' is that of the edition), or cut-offs of one's own. Left out: none for made and typed surfaces. */
  readonly filter?: { readonly kind: 'none' | 'class' | 'own'; readonly class?: string; readonly long?: number; readonly short?: number };
  /** 0 or left out: by filter and class. */
  readonly sections?: { readonly number?: number; readonly length?: number; readonly start?: number };
  /** The ordinate that moves, from 1 on the surface; left out, the highest peak. */
  readonly point?: number;
  readonly width?: number;
  /** Where a window of Rzx is looked at, mm from the start of the evaluation length, and the shift of the copy for Ral, µm; left out, those of the value. */
  readonly window?: number;
  readonly shift?: number;
  readonly move?: string;
  readonly way?: 'look' | 'predict' | 'work';
  /** Letters of the questions, in their order. */
  readonly questions?: string;
  readonly fade?: number;
  /** 1: values are hidden until the questions are answered or the value is guessed, 2: a guess is asked for first. */
  readonly hide?: 0 | 1 | 2;
  /** The trace of the worksheet that the exercise is about. */
  readonly file?: { readonly points: number; readonly crc: string };
}

export interface StudyTables {
  readonly ingredients: readonly StudyIngredient[];
  /** In the order in which they are put together. */
  readonly order: string;
  readonly questions: readonly { readonly letter: string; readonly id: string }[];
  /** Setting classes or cut-offs of each edition: by name, or by the cut-off in mm where the edition has no names. */
  readonly classes: Readonly<Record<string, readonly string[]>>;
}

/** How the pictures of a move are wanted; pixels. */
export interface StudyView {
  readonly trace: { readonly width: number; readonly height: number };
  readonly construction: { readonly width: number; readonly height: number };
  readonly comma?: boolean;
  /** Zoom window of the trace in mm from its start; left out, the whole. */
  readonly from?: number;
  readonly to?: number;
  /** Step of the construction picked out, from 1; 0 none. */
  readonly picked?: number;
  /** Ends of the height axes, so that they stay while something moves. */
  readonly heights?: readonly [number, number];
  /** Values are hidden: labels and tables say so in their place. */
  readonly hidden?: boolean;
  /** One of many moves: profiles are drawn in columns of two pixels, with their highest and lowest points. */
  readonly live?: boolean;
  /** The numbers of the formula's letters while it is live; else they always come. */
  readonly letters?: boolean;
  /** The distribution of the heights in place of the trace, and no construction: for question f. */
  readonly distribution?: boolean;
}

/** A value with what is said where there is none. */
export interface StudyValue {
  readonly value: number | null;
  /** As printed: '3.50', or '' where not defined. */
  readonly shown: string;
  readonly reason: string;
  readonly note: string;
  readonly sections: readonly (number | null)[];
}

/** A thing on a picture that can be dragged. Places in pixels of the picture; `set` with its id and a value moves it. */
export interface StudyHandle {
  readonly id: string;
  readonly on: 'trace' | 'construction';
  readonly kind: 'level' | 'point' | 'part' | 'along';
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** One key press: 1/200 of the height axis. */
  readonly step: number;
  /** The next higher and lower peak or pit; null where there is none. */
  readonly up: number | null;
  readonly down: number | null;
  /** For a reader: 'cut level 0.50 micrometres, 23 percent'. */
  readonly said: string;
  /** What Left and Right move, and by how much; '' for none. */
  readonly across: string;
  readonly acrossStep: number;
  readonly acrossValue: number;
}

export interface StudyMove {
  /** The exercise after `set`. */
  readonly state: StudyState;
  readonly symbol: string;
  readonly name: string;
  /** Key of the parameter in the catalogue. */
  readonly key: string;
  readonly unit: string;
  readonly value: StudyValue;
  /** Of the state `before`, with the symbol of this one. */
  readonly before: StudyValue | null;
  /** '+ 0.58 µm (+ 20 %)', 'no difference that can be read', or ''; and the sentence for readers. */
  readonly change: string;
  readonly said: string;
  /** 'Removed: straight line, waves under 2.5 µm, waves over 0.8 mm.' */
  readonly removed: string;
  readonly notes: readonly string[];
  readonly points: number;
  readonly spacing: number;
  /** What is evaluated: length in mm, sections, start in mm. */
  readonly length: number;
  readonly sections: number;
  readonly start: number;
  readonly trace: Figure;
  /** The finder under a zoomed trace: the whole, with the window. */
  readonly finder: Figure | null;
  readonly construction: Figure | null;
  readonly steps: readonly { readonly text: string; readonly section: number; readonly from: number | null; readonly to: number | null }[];
  readonly worked: readonly WorkedLine[];
  /** The numbers that the letters of the formula have here, by the keys of the catalogue's letters; printed. */
  readonly letters: Readonly<Record<string, string>>;
  readonly handles: readonly StudyHandle[];
  /** Ends of the height axis drawn, and whether something is cut off at them. */
  readonly heights: readonly [number, number];
  readonly cut: boolean;
  /** All that can move here with its value; the proposed one first. A `why` says that it cannot move now. */
  readonly moves: readonly (StudyField & { readonly value: number; readonly why: string })[];
}

export interface StudyQuestion {
  readonly letter: string;
  readonly id: string;
  readonly words: string;
  readonly options: readonly string[];
  /** Symbols whose values the question asks for: hidden until it is answered. */
  readonly hides: readonly string[];
  /** The distribution of heights is shown in place of the trace. */
  readonly distribution: boolean;
  /** Of an exercise that hides its value: the question tells it. */
  readonly tells: boolean;
}

export interface StudyReply {
  /** Index of the option that the calculation gives. */
  readonly answer: number;
  readonly reason: string;
  /** 'You expected: …. The calculation gives: ….' */
  readonly compared: string;
  /** 'Try: …', and what it sets. */
  readonly try: { readonly words: string; readonly move: string };
  /** The state asked about, and the one to keep as before; null where the picture stays. */
  readonly state: StudyState | null;
  readonly before: StudyState | null;
}

/** One blank of a worked line. */
export interface StudyBlank {
  readonly id: string;
  /** For readers: 'peak height of section 2, in micrometres'. */
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  /** Step of the construction it belongs to, from 1; 0 none. */
  readonly step: number;
}

export interface StudyBlanks {
  readonly symbol: string;
  /** 0 to 3; 0 where nothing can be blank. `why` says why the symbol has no blanks. */
  readonly level: number;
  readonly why: string;
  /** Lines in the order of working; a part is text, or the index of a blank. */
  readonly lines: readonly (readonly (string | number)[])[];
  readonly blanks: readonly StudyBlank[];
}

export interface StudyCheck {
  /** Whether it goes on; the sentence for the student; what the field should show for `show`. */
  readonly goes: boolean;
  readonly reply: string;
  readonly value: string;
}

export interface StudyHand {
  /** '16 heights, from −5 to 4, mean 0'; where the text cannot be read, the place and the reason in `problem`. */
  readonly echo: string;
  readonly problem: string;
  readonly heights: readonly number[];
}

export interface StudyTable {
  readonly columns: readonly { readonly id: string; readonly head: string; readonly used: boolean }[];
  readonly rows: readonly (readonly string[])[];
  /** Sums, and sums divided by their count: '34/16 = 2.125'. */
  readonly sums: readonly string[];
  readonly means: readonly string[];
  readonly notes: readonly string[];
}

export interface StudyKnown {
  readonly rows: readonly {
    readonly symbol: string;
    readonly formula: string;
    readonly known: number;
    readonly shown: string;
    readonly unit: string;
    /** Without filters, and behind those of the class; with the difference from the known value in percent and why. */
    readonly plain: number | null;
    readonly difference: number | null;
    readonly why: string;
    /** What is known behind the filters, where the transmission gives it. */
    readonly knownFiltered: number | null;
    readonly filtered: number | null;
    readonly source: string;
    readonly expected: boolean;
  }[];
  /** Why there is no closed form. */
  readonly reason: string;
}

export type StudyRequest =
  /** Ingredients and letters of questions; once. */
  | { readonly do: 'tables' }
  /** One move: applies `set` in its order, evaluates, draws. A value that cannot be is refused with the key of its field. */
  | { readonly do: 'move'; readonly state: StudyState; readonly set?: readonly { readonly id: string; readonly value: number }[]; readonly before?: StudyState | null; /** The pictures are those of before. */ readonly swap?: boolean; readonly view: StudyView }
  | { readonly do: 'known'; readonly state: StudyState }
  /** How steady the value is; it takes some thirty evaluations. */
  | { readonly do: 'steady'; readonly state: StudyState }
  | { readonly do: 'ask'; readonly state: StudyState }
  /** option is the index among the options, -1 for "I do not know". */
  | { readonly do: 'answer'; readonly state: StudyState; readonly letter: string; readonly option: number }
  | { readonly do: 'blanks'; readonly state: StudyState; readonly level: number; readonly picked?: number }
  /** entries are what stands in the blanks; `blank` is the index of the one to look at; `show` fills it. */
  | { readonly do: 'check'; readonly state: StudyState; readonly level: number; readonly picked?: number; readonly entries: readonly string[]; readonly blank: number; readonly show?: boolean }
  /** Reads typed heights. */
  | { readonly do: 'hand'; readonly text: string }
  /** Other heights: whole numbers from -size to size with mean 0. */
  | { readonly do: 'heights'; readonly count: number; readonly size: number; readonly seed: number }
  | { readonly do: 'table'; readonly state: StudyState; readonly slope: 'seven' | 'neighbours' }
  /** A surface of another shape with the same Ra. */
  | { readonly do: 'equal'; readonly state: StudyState }
  /** The heights of the surface, as traced. */
  | { readonly do: 'surface'; readonly state: StudyState }
  /** State to text and back, without the leading #. */
  | { readonly do: 'link'; readonly state: StudyState }
  | { readonly do: 'open'; readonly text: string }
  | { readonly do: 'code'; readonly state: StudyState; readonly answers: readonly number[]; readonly guess: number | null; readonly tag: number }
  | { readonly do: 'codes'; readonly state: StudyState; readonly text: string };

export interface StudyAnswers {
  tables: StudyTables;
  move: StudyMove;
  known: StudyKnown;
  steady: Steadiness;
  ask: { readonly offered: readonly StudyQuestion[]; readonly withheld: readonly { readonly letter: string; readonly id: string; readonly why: string }[] };
  answer: StudyReply;
  blanks: StudyBlanks;
  check: StudyCheck;
  hand: StudyHand;
  heights: StudyHand;
  table: StudyTable;
  equal: { readonly state: StudyState };
  surface: { readonly z: readonly number[]; readonly spacing: number };
  /** problem is said in place of a text that would be too long. */
  link: { readonly text: string; readonly holds: string; readonly problem: string };
  /** What was not understood stands in notes; with a problem nothing is set. */
  open: { readonly state: StudyState | null; readonly notes: readonly string[]; readonly problem: string };
  /** Answers are indices of options in the order of `questions`, 6 for "I do not know", 7 for not answered. */
  code: { readonly text: string };
  codes: {
    readonly read: readonly { readonly answers: readonly number[]; readonly guess: number | null; readonly tag: number }[];
    /** Sentences: how many were read, which lines had none, were damaged, or belong to another exercise. */
    readonly said: readonly string[];
  };
}

export interface Furrow {
  /** maxBytes is the size of the largest file that `read` takes. */
  readonly version: { readonly furrow: string; readonly go: string; readonly maxBytes: number };
  catalogue(): Catalogue;
  demos(): Demo[];
  /** The heights of a demonstration trace are computed when they are asked for. */
  demo(key: string): Demo & { readonly profile: Profile };
  read(file: Uint8Array | ArrayBuffer, hints?: Hints): Reading;
  /** With the requirement that the settings follow from, the origins of the result say what it and the standards chose. */
  evaluate(profile: GivenProfile, settings?: Settings, requirement?: { readonly text: string; readonly edition?: string }): Evaluation;
  /** A picture of the latest check of the instrument, or of a held trace. */
  figure(name: OtherFigure, options?: FigureOptions): Figure;
  /** A text that cannot be read is no error: the answer says where it stopped being understood. */
  requirement(text: string, edition?: string): Plan;
  /** The verdict on values typed in and on held and measured traces, without an evaluation of its own. */
  judge(text: string, options?: JudgeOptions): Verdict;
  /** Evaluates and judges the traces of a sheet and makes its record, by the same code as the command. One profile for each trace, in
   * their order. A text of `asked` or a typed value that cannot be read throws with the key limit, rule, typed, u or prove. */
  record(sheet: Sheet, profiles: readonly GivenProfile[], options?: { readonly want?: readonly RecordForm[]; readonly comma?: boolean; readonly inch?: boolean }): RecordAnswer;
  /** From the bytes of a file, JSON or the page that carries it. A record that is cut short, was changed or has another version throws with
   * the kind record, the place and what differs. */
  reopen(file: Uint8Array | ArrayBuffer): OpenedRecord;
  verify(file: Uint8Array | ArrayBuffer): Verification;
  digest(file: Uint8Array | ArrayBuffer): { readonly size: number; readonly sha256: string };
  /** A check of the instrument, on traces of a specimen, a flat, a groove, or the surface of a budget. Nothing is corrected. */
  instrument: <C extends CheckRequest>(request: C, profiles?: readonly GivenProfile[]) => CheckAnswers[C['check']];
  /** Runs the check register on this machine; it takes a second or two. `made` says when, on the sheet. */
  selfcheck(made: string): SelfcheckAnswer;
  /** The Study sheet: every request carries the whole exercise. The trace of the worksheet comes once, beside any request, and stays. */
  study: <Q extends StudyRequest>(request: Q & { readonly settings?: Settings }, sheet?: GivenProfile) => StudyAnswers[Q['do']];
  /** Keeps a trace for measure and for judge; only names those held before that stay. */
  hold(trace: { readonly id?: string; readonly profile?: GivenProfile; readonly only?: readonly string[] | null }): void;
  measure(id: string, settings: Settings): Measured;
  summary(values: readonly number[]): SeriesSummary;
  make(surface: Surface): { readonly profile: Profile; readonly known: readonly Known[] };
}

/** Where a module comes from: its address, a response that carries it, its bytes, or what was compiled before. */
export type ModuleSource = string | { readonly href: string } | { readonly ok: boolean; arrayBuffer(): Promise<ArrayBuffer> } | ArrayBuffer | ArrayBufferView | CompiledModule;

/** WebAssembly.Module, where the types of the host know it. */
export type CompiledModule = typeof globalThis extends { WebAssembly: { Module: new (...bytes: any[]) => infer M } } ? M : never;

/** Starts the module, which lies beside this file. */
export declare function load(source?: ModuleSource): Promise<Furrow>;

// What a thread of its own is made of; see the worker of the package.

/** What the module answers: JSON, and arrays by name. */
export interface Answer {
  readonly text: string;
  readonly arrays: Readonly<Record<string, Float64Array>>;
}

/** One call of the module: JSON, an array, the number of the evaluation that it is about; undefined where that one is no longer there. */
export type Ask = (name: string, text: string, data?: Float64Array | Uint8Array, handle?: number) => Answer | undefined;

export declare function faultOf(error: unknown): Fault;
export declare function compile(source: ModuleSource): Promise<CompiledModule>;
export declare function start(module: CompiledModule): Promise<{ readonly ask: Ask; readonly version: Furrow['version'] }>;
/** Makes the calls of furrow from an ask. Where that one promises its answers, every call does. */
export declare function connect(ask: (...call: Parameters<Ask>) => Answer | undefined | Promise<Answer | undefined>, version: Furrow['version']): Furrow;

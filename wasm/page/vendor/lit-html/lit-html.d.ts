// What the page uses of lit-html.js.

/** A piece of a page with its values, to be rendered. */
export interface TemplateResult {
  readonly strings: TemplateStringsArray;
  readonly values: readonly unknown[];
}
export declare const html: (strings: TemplateStringsArray, ...values: unknown[]) => TemplateResult;
export declare const svg: typeof html;
/** Renders nothing, and takes an attribute away. */
export declare const nothing: symbol;
export declare const noChange: symbol;
/** Renders into a container that holds nothing else; what stays the same is not touched. */
export declare const render: (value: unknown, container: Element) => unknown;

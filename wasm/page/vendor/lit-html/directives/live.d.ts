/** A property that is compared with what the element holds now, not with what was rendered last. */
export declare const live: (value: unknown) => unknown;

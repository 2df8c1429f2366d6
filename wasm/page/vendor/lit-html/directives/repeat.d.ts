/** A list whose elements stay with their keys when it changes. */
export declare const repeat: <T>(items: Iterable<T>, key: (item: T, index: number) => unknown, template: (item: T, index: number) => unknown) => unknown;

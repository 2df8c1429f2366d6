// Symbols as written: letters, and arguments in brackets. Rmr(5;1) is another parameter than Rmr(5).

/** @typedef {import('../furrow.js').Entry} Entry */

/** @type {(symbol: string) => string[]} */
export const argsOf = (symbol) => symbol.match(/\((.*)\)/)?.[1].split(/[,;]/) ?? [];

/** @type {(symbol: string) => string} */
export const base = (symbol) => symbol.replace(/\(.*/, '');

/** A symbol with other arguments. @type {(symbol: string, args: readonly string[]) => string} */
export const withArgs = (symbol, args) => (args.length ? `${base(symbol)}(${args.join(symbol.includes(';') ? ';' : ',')})` : symbol);

/** The entry that a symbol belongs to: the same letters, and as many arguments. @type {(list: readonly Entry[], symbol: string) => Entry | undefined} */
export function entryOf(list, symbol) {
  const alike = list.filter((e) => base(e.symbol) === base(symbol));
  return alike.find((e) => e.symbol === symbol) ?? alike.find((e) => argsOf(e.symbol).length === argsOf(symbol).length) ?? (symbol.includes('(') ? undefined : alike[0]);
}

/** With two decimals at most, and no zeros behind them: 63.5, 60, 59.98. */
export function shortNumber(value: number): string {
  return `${Number(value.toFixed(2))}`
}

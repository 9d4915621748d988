/** "1 run", "2 runs". */
export const count = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

/** How many trials are drawn at once: few enough that a block's numbers stay in the processor's cache; 10^4 are ten blocks. */
export const blockSize = 1000;

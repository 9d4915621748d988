import fc from "fast-check";

/**
 * Property tests draw from one seed, so that a run says the same about the same sources, here and elsewhere. To search
 * further, give another: `PROPERTY_SEED=$RANDOM npm test`.
 */
fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 20_261_125) });

package tallyback.audio;

/**
 * How loud a clip is and how far speech stands above what surrounds it.
 *
 * @param activeDbfs level while somebody speaks, in dB relative to a full-scale square wave (0 dBFS
 *     is the largest 16-bit value); negative infinity when nobody does
 * @param noiseDbfs level of what remains between the words, likewise; negative infinity for digital
 *     silence
 * @param snrDb the first less the second, in dB; 0 when nobody speaks
 * @param isNoiseInGaps whether the noise is not that around the speech but that in its gaps: it
 *     swells while somebody speaks
 */
public record LevelReport(
    double activeDbfs, double noiseDbfs, double snrDb, boolean isNoiseInGaps) {}

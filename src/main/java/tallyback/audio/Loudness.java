package tallyback.audio;

/** Makes sound louder or softer without ever clipping it. */
public final class Loudness {

  /** Up to here, as a part of full scale, nothing is bent; above, peaks are pressed together. */
  private static final double STRAIGHT = 0.7;

  private Loudness() {}

  /**
   * The same sound, louder or softer.
   *
   * @param clip the sound
   * @param gainDb by how many decibels; below nought softer
   */
  public static Clip changed(Clip clip, double gainDb) {
    if (gainDb == 0) {
      return clip;
    }
    double factor = Math.pow(10, gainDb / 20) / Short.MAX_VALUE;
    short[] samples = new short[clip.length()];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) Math.round(limited(clip.sample(i) * factor) * Short.MAX_VALUE);
    }
    return new Clip(samples, clip.startMs());
  }

  private static double limited(double value) {
    double size = Math.abs(value);
    if (size <= STRAIGHT) {
      return value;
    }
    double room = 1 - STRAIGHT;
    return Math.signum(value) * (STRAIGHT + room * Math.tanh((size - STRAIGHT) / room));
  }
}

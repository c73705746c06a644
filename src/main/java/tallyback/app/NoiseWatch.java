package tallyback.app;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.audio.SpeechBands;
import tallyback.speech.Clearness;

/**
 * Whether it is too noisy to trust what is heard, by one figure: {@link Clearness}, of an utterance
 * by its own sound, of the room by how far the last speech stood above what the room is now.
 *
 * <p>It does not flap: what is below {@link #ENTER} makes it too noisy, an utterance at once, the
 * room after two seconds; from then on only what reaches {@link #LEAVE} is taken, and it is quiet
 * again when the room has been as good as that for three seconds. Whoever speaks up or comes close
 * is heard meanwhile. A recording has no room that is known between two utterances: there an
 * utterance as good as that ends it.
 *
 * <p>One thread.
 */
final class NoiseWatch {

  /** Less clear than this is too noisy: see DEVELOPERS.md for what that costs and avoids. */
  static final double ENTER = Clearness.ENOUGH;

  /** As clear as this is quiet enough again. */
  static final double LEAVE = Clearness.ENOUGH_AGAIN;

  /** Less clear than this more is asked. */
  private static final double FAIR = 0.88;

  private static final double FAIR_AGAIN = 0.90;

  /** A door that slams, an air gun for a second, is no noise to speak of. */
  static final Duration NOISY_FOR = Duration.ofSeconds(2);

  /** A hammer rests so long between two blows. */
  static final Duration QUIET_FOR = Duration.ofSeconds(3);

  /** How fast the level of speech follows each utterance. */
  private static final double FOLLOWS = 0.4;

  private List<Double> speechDb = Clearness.usualSpeechDb();
  private boolean spoken;
  private boolean roomKnown;
  private boolean tooNoisy;
  private boolean noisy;
  private @Nullable Instant since;

  /**
   * Takes an utterance that was meant for the log.
   *
   * @return false when what was heard of it can't be trusted
   */
  boolean takes(SpeechBands utterance) {
    return takes(Clearness.of(utterance), utterance.loudDb());
  }

  /**
   * The same.
   *
   * @param clearness how clear it is
   * @param loudDb how loud in each band
   */
  boolean takes(double clearness, List<Double> loudDb) {
    boolean trusted = clearness >= (tooNoisy ? LEAVE : ENTER);
    follow(loudDb);
    if (!trusted) {
      tooNoisy = true;
      since = null;
    } else if (!roomKnown) {
      tooNoisy = false;
    }
    noisy = clearness < (noisy ? FAIR_AGAIN : FAIR);
    return trusted;
  }

  private void follow(List<Double> loudDb) {
    List<Double> now = new ArrayList<>();
    for (int band = 0; band < loudDb.size(); band++) {
      double before = speechDb.get(band);
      now.add(spoken ? before + FOLLOWS * (loudDb.get(band) - before) : loudDb.get(band));
    }
    speechDb = now;
    spoken = true;
  }

  /**
   * Takes how loud the room is while nobody speaks.
   *
   * @param roomDb how loud in each band; none when it isn't known
   */
  void room(Instant now, List<Double> roomDb) {
    if (roomDb.isEmpty()) {
      return;
    }
    roomKnown = true;
    double clearness = Clearness.at(SpeechBands.prominenceDb(speechDb, roomDb));
    noisy = clearness < (noisy ? FAIR_AGAIN : FAIR);
    boolean other = tooNoisy ? clearness >= LEAVE : clearness < ENTER;
    if (!other) {
      since = null;
      return;
    }
    Instant begun = since == null ? now : since;
    since = begun;
    if (!now.isBefore(begun.plus(tooNoisy ? QUIET_FOR : NOISY_FOR))) {
      tooNoisy = !tooNoisy;
      since = null;
    }
  }

  /**
   * Whether it is quiet, and that is known: by the room where it is known, else by what was said.
   * Somebody may be asked something then; not while it begins to be noisy, nor just after the
   * start.
   */
  boolean isKnownQuiet() {
    return !tooNoisy && (roomKnown ? since == null : spoken);
  }

  /** How it is now. */
  Noisiness state() {
    return tooNoisy ? Noisiness.TOO_NOISY : noisy ? Noisiness.NOISY : Noisiness.QUIET;
  }
}

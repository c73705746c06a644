package tallyback.web.lan;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import org.jspecify.annotations.Nullable;

/**
 * The code that lets one device in: eight digits, good once, for ten minutes, and no longer after
 * five wrong ones, so that guessing succeeds once in twenty million codes. There is one code at a
 * time, and none until somebody asks for it. Thread rule: any thread.
 */
public final class PairingCode {

  /** How long a code is good for. */
  public static final Duration GOOD_FOR = Duration.ofMinutes(10);

  private static final int DIGITS = 8;
  private static final int MOST_WRONG = 5;

  private final InstantSource clock;
  private final SecureRandom random = new SecureRandom();
  private @Nullable String digits;
  private Instant until = Instant.EPOCH;
  private int wrong;

  /** What came of a code that was said. */
  public enum Outcome {
    /** It is right, and used up now. */
    RIGHT,
    /** It is not the one. */
    WRONG,
    /** There is none that is good: it was used, or too long ago. */
    NONE,
    /** That was one wrong code too many: the right one is no longer good. */
    SHUT
  }

  PairingCode(InstantSource clock) {
    this.clock = clock;
  }

  /** Makes a new one; the one before is no longer good. */
  synchronized Shown renew() {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < DIGITS; i++) {
      text.append((char) ('0' + random.nextInt(10)));
    }
    String made = text.toString();
    digits = made;
    wrong = 0;
    until = clock.instant().plus(GOOD_FOR);
    return new Shown(made, until);
  }

  /**
   * A code to show.
   *
   * @param digits eight of them
   * @param until when it ends
   */
  record Shown(String digits, Instant until) {}

  /** Somebody says it is this; blanks between the digits don't count. */
  public synchronized Outcome say(String said) {
    String right = digits;
    if (right == null || !clock.instant().isBefore(until)) {
      digits = null;
      return Outcome.NONE;
    }
    byte[] given = said.replaceAll("[\\s-]", "").getBytes(StandardCharsets.UTF_8);
    if (MessageDigest.isEqual(right.getBytes(StandardCharsets.UTF_8), given)) {
      digits = null;
      return Outcome.RIGHT;
    }
    wrong++;
    if (wrong < MOST_WRONG) {
      return Outcome.WRONG;
    }
    digits = null;
    return Outcome.SHUT;
  }
}

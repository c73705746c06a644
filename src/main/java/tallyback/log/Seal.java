package tallyback.log;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A few letters to keep elsewhere, on paper or in a record: by them it can be shown later that a
 * job is, up to where it was closed, as it was then. What is added on visits later breaks no seal.
 * Written {@code job-1/165/3f2a-91c4-0b77-e2d5-86aa-4c10}.
 *
 * @param job the job
 * @param seq the number of its closing entry
 * @param hash the first 24 hex digits of that entry's hash (96 of 256 bits), which takes in every
 *     entry before it
 */
public record Seal(String job, long seq, String hash) {

  /** So many digits of the hash are written down. */
  public static final int DIGITS = 24;

  private static final Pattern WRITTEN =
      Pattern.compile("(?:seal )?(.+)/([1-9][0-9]{0,11})/((?:[0-9a-fA-F]{4}-?){6})");

  /** Of a closing entry with its whole hash. */
  public static Seal of(String job, long seq, String wholeHash) {
    return new Seal(job, seq, wholeHash.substring(0, DIGITS));
  }

  /**
   * Reads one that was written down.
   *
   * @throws LogRefused if it is none
   */
  public static Seal read(String written) {
    Matcher read = WRITTEN.matcher(written.strip());
    if (!read.matches()) {
      throw new LogRefused(
          "seal \""
              + written.strip()
              + "\": expected a job, a number and six groups of four, such as"
              + " job-1/165/3f2a-91c4-0b77-e2d5-86aa-4c10; copy it as 'close' or the record says it");
    }
    return new Seal(
        read.group(1),
        Long.parseLong(read.group(2)),
        read.group(3).replace("-", "").toLowerCase(Locale.ROOT));
  }

  /** Whether a closing entry's whole hash is the one that was sealed. */
  public boolean fits(String wholeHash) {
    return wholeHash.startsWith(hash);
  }

  @Override
  public String toString() {
    return job + "/" + seq + "/" + hash.replaceAll("(.{4})(?!$)", "$1-");
  }
}

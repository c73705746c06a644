package tallyback.report;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** How jobs are listed in words, alike on the console and on the page. English only. */
public final class JobsText {

  /** Nothing fits. */
  public static final String NONE = "No job fits.";

  /** There is none at all. */
  public static final String NONE_YET = "There is no job here yet.";

  private JobsText() {}

  /** {@code open}, {@code closed}, {@code open again}. */
  public static String state(boolean closed, int closings) {
    return closed ? "closed" : closings > 0 ? "open again" : "open";
  }

  /** {@code 2 stops, 1 check}; what isn't there is left out. */
  public static String findings(long stops, long checks, long notes) {
    List<String> parts = new ArrayList<>();
    count(parts, stops, "stop");
    count(parts, checks, "check");
    count(parts, notes, "note");
    return parts.isEmpty() ? "nothing found" : String.join(", ", parts);
  }

  private static void count(List<String> parts, long many, String name) {
    if (many > 0) {
      parts.add(many + " " + name + (many == 1 ? "" : "s"));
    }
  }

  /** {@code 1 h 05 min worked}. */
  public static String worked(Duration worked) {
    return worked.isZero() ? "no work told" : ShopTime.took(worked) + " worked";
  }

  /** {@code 100 entries}. */
  public static String entries(long count) {
    return count == 1 ? "1 entry" : count + " entries";
  }

  /** The machine with its number and whose it is, as far as known. */
  public static String machine(String machine, @Nullable String serial, String owner) {
    List<String> parts = new ArrayList<>();
    if (!machine.isEmpty()) {
      parts.add(machine + (serial == null ? "" : ", no. " + serial));
    }
    if (!owner.isEmpty()) {
      parts.add(owner);
    }
    return parts.isEmpty() ? "machine not named" : String.join(" \u00b7 ", parts);
  }

  /** Of which all there are more. */
  public static String shown(long shown, long all) {
    return shown + " of " + all + (all == 1 ? " job" : " jobs");
  }

  /** How many of a job's entries hold the words, beside those that are told. */
  public static String moreHits(long more) {
    return more == 1 ? "and 1 more entry" : "and " + more + " more entries";
  }
}

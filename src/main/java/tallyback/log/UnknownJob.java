package tallyback.log;

import java.util.Collection;
import java.util.stream.Collectors;

/** The refusal of a job that isn't there: says which are. */
final class UnknownJob {

  /** More names than this don't help anybody. */
  private static final int NAMES_SHOWN = 8;

  private UnknownJob() {}

  static LogRefused among(Collection<JobSummary> known, String job) {
    String names =
        known.stream().map(JobSummary::id).limit(NAMES_SHOWN).collect(Collectors.joining(", "));
    String more =
        known.size() > NAMES_SHOWN ? " and " + (known.size() - NAMES_SHOWN) + " more" : "";
    return new LogRefused(
        "no job \""
            + job
            + "\" in this data file; "
            + (known.isEmpty() ? "it holds none yet" : "it holds: " + names + more));
  }
}

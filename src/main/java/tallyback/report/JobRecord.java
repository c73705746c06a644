package tallyback.report;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.PastJob;

/**
 * All that a report tells about one job. Immutable, so any thread may use it.
 *
 * @param plan the plan as it was frozen into the job
 * @param heading which job, when and where
 * @param outcome what the reconciler made of the entries
 * @param entries every entry of the job, withdrawn ones too; kept here by their number
 * @param heard what was listened to, or null when nothing was or nobody counted
 * @param past the times of earlier jobs of the same plan
 * @param sounds what can be heard again: WAV files by the hash that entries name
 * @param pictures the reduced copies of photos that can be shown: {@value #PICTURE_TYPE} files by
 *     the id of their entry; {@link JobPictures} says where each belongs
 */
public record JobRecord(
    Plan plan,
    Heading heading,
    Outcome outcome,
    List<Entry> entries,
    @Nullable Heard heard,
    List<PastJob> past,
    Map<String, byte[]> sounds,
    Map<String, byte[]> pictures) {

  /** What every picture is. */
  public static final String PICTURE_TYPE = "image/jpeg";

  /** Copies the lists and orders the entries by their number. */
  public JobRecord {
    past = List.copyOf(past);
    sounds = Map.copyOf(sounds);
    pictures = Map.copyOf(pictures);
    entries = entries.stream().sorted(Comparator.comparingLong(Entry::seq)).toList();
  }

  /** A job without earlier ones. */
  public JobRecord(
      Plan plan, Heading heading, Outcome outcome, List<Entry> entries, @Nullable Heard heard) {
    this(plan, heading, outcome, entries, heard, List.of(), Map.of());
  }

  /** A job without pictures. */
  public JobRecord(
      Plan plan,
      Heading heading,
      Outcome outcome,
      List<Entry> entries,
      @Nullable Heard heard,
      List<PastJob> past,
      Map<String, byte[]> sounds) {
    this(plan, heading, outcome, entries, heard, past, sounds, Map.of());
  }

  /** The same with sounds. */
  public JobRecord with(Map<String, byte[]> heardAgain) {
    return new JobRecord(plan, heading, outcome, entries, heard, past, heardAgain, pictures);
  }

  /** The same with pictures. */
  public JobRecord withPictures(Map<String, byte[]> shown) {
    return new JobRecord(plan, heading, outcome, entries, heard, past, sounds, shown);
  }

  /**
   * Which job it is.
   *
   * @param job its id
   * @param openedAt when it was opened
   * @param closedAt when it was closed, or null while it is open
   * @param madeAt when this report was made
   * @param zone the time zone of the shop; an entry's own zone holds for that entry
   * @param seal the seal of its last closing, or null while it was never closed
   */
  public record Heading(
      String job,
      Instant openedAt,
      @Nullable Instant closedAt,
      Instant madeAt,
      ZoneId zone,
      @Nullable String seal) {

    /** Of a job without a seal. */
    public Heading(
        String job, Instant openedAt, @Nullable Instant closedAt, Instant madeAt, ZoneId zone) {
      this(job, openedAt, closedAt, madeAt, zone, null);
    }
  }

  /**
   * What was listened to.
   *
   * @param utterances how many pieces of speech were cut out of the sound
   * @param noted how many of them were noted without asking
   * @param asked how many were asked about
   * @param rejected how many were no entry
   * @param speech how long they were together
   */
  public record Heard(int utterances, int noted, int asked, int rejected, Duration speech) {}
}

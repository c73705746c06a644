package tallyback.reconcile;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.Memo;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Basis;
import tallyback.plan.Plan.Place;

/**
 * What a job tells of itself: whatever came off must go back. Where there is no plan this is what
 * the job is held against. Immutable.
 *
 * @param plan what is expected because of what came off, its steps in the order of the tear-down
 *     and then in reverse; of a job that has a plan, that plan and what it lacks
 * @param open what can't be decided by what was told: it is asked, never guessed
 * @param taken what was taken off, first things first
 */
public record TearDown(Plan plan, List<Open> open, List<Taken> taken) {

  /** Copies its lists. */
  public TearDown {
    open = List.copyOf(open);
    taken = List.copyOf(taken);
  }

  /** What an open point is about. */
  public enum About {
    /** How many of a group there are. */
    COUNT,
    /** Which group was meant. */
    GROUP,
    /** What a numbered place is called. */
    NAME
  }

  /**
   * Something that was not told, or told in two ways.
   *
   * @param about what it is about
   * @param subject plan id of the group or place, or empty when there is none
   * @param words the question, for people
   */
  public record Open(About about, String subject, String words) {}

  /**
   * One thing with what holds it: taken off together, and fitted together.
   *
   * @param holder plan id of the part, or of the place that the fasteners belong to
   * @param items plan ids in the order in which they first came off
   * @param temporary true for what went in and must come out again
   * @param offAt place of the entry, by the time it happened, with which it was off (a temporary
   *     item: in)
   * @param onAt the same for being on again (a temporary item: out), or null while it isn't
   */
  public record Taken(
      String holder, List<String> items, boolean temporary, int offAt, @Nullable Integer onAt) {

    /** Copies the list. */
    public Taken {
      items = List.copyOf(items);
    }
  }

  /**
   * Reads a job.
   *
   * @param plan its plan, or the names it was told with
   * @param entries every entry of it, in any order
   */
  public static TearDown of(Plan plan, List<Entry> entries) {
    return new TearDownReading(plan, Books.of(plan, entries).standing()).read();
  }

  /**
   * What a job is held against: its plan, and where there is none what came off.
   *
   * @param plan its plan, or the names it was told with
   * @param entries every entry of it, in any order
   */
  public static Plan expected(Plan plan, List<Entry> entries) {
    return plan.basis() == Basis.NAMES ? of(plan, entries).plan() : plan;
  }

  /** Whether a statement says what a numbered place is called. */
  static boolean names(Statement said, Place place) {
    return nameOf(said, place.id(), place.label()).isPresent();
  }

  /**
   * What a memo calls a place.
   *
   * @param said any statement
   * @param id plan id of the place
   * @param label what it was called in the job, such as "place three"
   * @return the name as typed, empty text for one that was spoken; nothing when it is no such memo
   */
  public static Optional<String> nameOf(Statement said, String id, String label) {
    if (!(said instanceof Memo memo)) {
      return Optional.empty();
    }
    String text = memo.text() == null ? "" : memo.text().strip();
    if (id.equals(memo.subject())) {
      return Optional.of(text);
    }
    boolean begins =
        memo.subject() == null
            && text.regionMatches(true, 0, label + " is ", 0, label.length() + 4);
    return begins ? Optional.of(text.substring(label.length() + 4).strip()) : Optional.empty();
  }

  /** What is open about an item or place. */
  public Optional<Open> openOf(String subject, About about) {
    return open.stream()
        .filter(each -> each.about() == about && each.subject().equals(subject))
        .findFirst();
  }
}

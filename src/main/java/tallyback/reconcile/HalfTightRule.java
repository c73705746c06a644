package tallyback.reconcile;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Statement;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Tightened;
import tallyback.plan.Plan.Item;

/**
 * A group was left half tightened over a long pause: which of them are tight then rests on memory.
 * Tightening the whole group afterwards settles it.
 */
final class HalfTightRule implements Rule {

  private static final Kind HALF_TIGHT =
      Kind.check("half-tight-over-pause", Kind.ALL)
          .following(
              "hand-tight-only",
              "tight-by-feel",
              "torque-partly",
              "torque-unsaid",
              "passes-missing",
              "angle-unsaid",
              "left-in-tray",
              "missing",
              "said-not-counted")
          .whileUnfinished();

  /** After so long nobody knows for sure which ones were tight. Common practice, no source. */
  private static final Duration LONG = Duration.ofMinutes(30);

  @Override
  public List<Kind> kinds() {
    return List.of(HALF_TIGHT);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    for (Item item : job.plan().items()) {
      if (!item.temporary() && item.count() > 1) {
        new Group(job, item).pauseOverHalf().ifPresent(pause -> add(item, job, pause, found));
      }
    }
  }

  private static void add(Item item, JobView job, Group.Half half, Drafts found) {
    found
        .add(HALF_TIGHT, item.id(), item.label())
        .restingOn(job.stepsFitting(item))
        .with("done", half.done())
        .with("count", item.count())
        .with("when", FindingText.clockTime(half.pause().entry()))
        .with("lasted", FindingText.lasted(half.pause()))
        .with("least", LONG.toMinutes())
        .seenIn(job.entry(half.pause().entry().id()).stream().toList())
        .seenIn(job.tightness(item).evidence());
  }

  /** How far one group was, walked through in order. */
  private static final class Group {

    /** How many were finished when a pause began. */
    record Half(Pauses.Pause pause, int done) {}

    private final JobView job;
    private final Item item;
    private int begun;
    private int done;
    private int turned;
    private @Nullable Half half;

    Group(JobView job, Item item) {
      this.job = job;
      this.item = item;
    }

    /** The pause that nothing has settled since. */
    Optional<Half> pauseOverHalf() {
      int last = -1;
      for (At<Statement> event : job.eventsOf(item.id())) {
        pauseBetween(last, event.position());
        take(event.statement());
        last = event.position();
      }
      pauseBetween(last, Integer.MAX_VALUE);
      return Optional.ofNullable(half);
    }

    private void pauseBetween(int after, int before) {
      boolean whole = done >= item.count() && (angle() == 0 || turned >= item.count());
      if (begun > 0 && !whole && half == null) {
        half =
            job.pauses()
                .firstLongBetween(after, before, LONG)
                .map(pause -> new Half(pause, angle() == 0 ? done : Math.min(done, turned)))
                .orElse(null);
      }
    }

    private int angle() {
      return item.torque() == null || item.torque().angle() == null ? 0 : item.count();
    }

    private void take(Statement statement) {
      if (statement instanceof Tightened told) {
        tightened(told, told.count() == null ? item.count() : Math.max(0, told.count()));
      } else if (statement instanceof ItemsMoved moved
          && (moved.move() == ItemMove.OFF || moved.move() == ItemMove.SHEARED)) {
        takenOff(moved.count() == null ? item.count() : Math.max(0, moved.count()));
      }
    }

    private void takenOff(int off) {
      begun = Math.max(0, begun - off);
      done = Math.max(0, done - off);
      turned = Math.max(0, turned - off);
      if (begun == 0) {
        half = null;
      }
    }

    private void tightened(Tightened told, int number) {
      begun = Math.min(item.count(), Math.max(begun, number));
      switch (told.state()) {
        case STARTED, HAND_TIGHT -> {
          // Begun, and no more.
        }
        case BY_FEEL, TORQUED, CHECKED -> finished(told, number);
        case ANGLE_DONE -> {
          turned = Math.min(item.count(), turned + number);
          settleWith(number, done >= item.count());
        }
      }
    }

    private void finished(Tightened told, int number) {
      int passes = item.torque() == null ? 1 : item.torque().passes();
      if (told.pass() == null || told.pass() >= passes) {
        done = Math.min(item.count(), done + number);
        settleWith(number, true);
      }
    }

    /** The whole group tightened in one go leaves no doubt which. */
    private void settleWith(int number, boolean last) {
      if (last && number >= item.count()) {
        half = null;
      }
    }
  }
}

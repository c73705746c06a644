package tallyback.dialogue;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.CautionAnswered;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.LeftForNight;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.SpeakerIs;
import tallyback.model.Statement.TimerSet;
import tallyback.model.Statement.TimersCancelled;
import tallyback.model.Statement.Undone;

/**
 * What was called out while it was too noisy and kept as sound, to be asked for when it is quiet:
 * each once, the earliest first. What is said then is noted with the time of the first saying, and
 * the kept one is settled by it; taken back, it is wanted once more. "Skip it" leaves it as it is,
 * "ask me later" puts it off; who does not answer is not asked for it again, and left in peace with
 * the others for as long. All of it is read out of the log, so whoever starts the tool again is
 * asked for what still waits; only what was skipped or put off is no entry, and forgotten then. One
 * thread.
 */
final class SayAgain {

  /** Who was put off asks again so much later. A choice of our own, no source. */
  static final Duration LATER = Duration.ofMinutes(10);

  /** So long somebody knows what he said. A choice of our own, no source. */
  static final Duration REMEMBERED = Duration.ofHours(2);

  /** Kept and not asked for yet, by id, in the order they were said. */
  private final Map<String, Entry> waiting = new LinkedHashMap<>();

  /** By the entry that said it again: what it settled. */
  private final Map<String, Entry> settledBy = new HashMap<>();

  /** Everything kept, by id. */
  private final Map<String, Entry> kept = new HashMap<>();

  private Instant notBefore = Instant.MIN;
  private @Nullable Entry wanted;
  private @Nullable String repeating;

  /** Takes every entry of the job in order. */
  void add(Entry entry) {
    Statement said = entry.statement();
    if (said instanceof NotUnderstood missed && missed.inNoise()) {
      kept.put(entry.id(), entry);
      waiting.put(entry.id(), entry);
    }
    if (entry.certainty() == Certainty.UNCONFIRMED) {
      return;
    }
    if (said instanceof NotUnderstoodSettled settled) {
      String target = settled.target();
      if (target == null) {
        waiting.clear();
        wanted = null;
      } else {
        waiting.remove(target);
        Entry once = kept.get(target);
        if (once != null && settled.by() != null) {
          settledBy.put(settled.by(), once);
        }
      }
    } else if (said instanceof Undone undone && undone.target() != null) {
      Entry again = settledBy.remove(undone.target());
      if (again != null) {
        waiting.put(again.id(), again);
      }
    }
  }

  /** True while one is asked for. */
  boolean isOpen() {
    return wanted != null;
  }

  /**
   * Asks for the next, when there is one.
   *
   * @return how many wait, and the one that is asked for from now on
   */
  Optional<Wanted> next(Instant now) {
    waiting.values().removeIf(entry -> entry.happenedAt().isBefore(now.minus(REMEMBERED)));
    if (wanted != null || waiting.isEmpty() || now.isBefore(notBefore)) {
      return Optional.empty();
    }
    int count = waiting.size();
    Entry first = waiting.values().iterator().next();
    waiting.remove(first.id());
    wanted = first;
    repeating = null;
    return Optional.of(new Wanted(first, count));
  }

  /**
   * Something to be said again.
   *
   * @param entry what was kept
   * @param count how many wait, with this one
   */
  record Wanted(Entry entry, int count) {}

  /** When what is asked for was said; empty when nothing is. */
  Optional<Instant> saidAt() {
    return Optional.ofNullable(wanted).map(Entry::happenedAt);
  }

  /**
   * When a statement happened if it is what is asked for; empty when nothing is, and for what was
   * hardly meant: that which works on other entries, or on who speaks and who listens.
   *
   * @param utterance id of the utterance that says it
   */
  Optional<Instant> repeatedBy(String utterance, Statement statement) {
    Entry entry = wanted;
    if (entry == null
        || statement instanceof Undone
        || statement instanceof Corrected
        || statement instanceof Retimed
        || statement instanceof NotUnderstood
        || statement instanceof NotUnderstoodSettled
        || statement instanceof CautionAnswered
        || statement instanceof TimerSet
        || statement instanceof TimersCancelled
        // A film has it where it was said, not where it is said again.
        || statement instanceof Statement.FilmMark
        || statement instanceof SpeakerIs
        || statement instanceof Paused
        || statement instanceof Resumed
        || statement instanceof LeftForNight
        || statement instanceof JobOpened
        || statement instanceof JobClosed) {
      return Optional.empty();
    }
    repeating = utterance;
    return Optional.of(entry.happenedAt());
  }

  /**
   * What was said again is noted, with the time of the first saying.
   *
   * @param utterance id of the utterance that said it
   * @return what it settles; empty when it was something else
   */
  Optional<Entry> noted(String utterance, Instant happenedAt) {
    Entry entry = wanted;
    if (entry == null || !utterance.equals(repeating) || happenedAt.isAfter(entry.happenedAt())) {
      return Optional.empty();
    }
    wanted = null;
    return Optional.of(entry);
  }

  /** It is not said now; returns when it was said. */
  Optional<Instant> putOff(boolean later, Instant now) {
    Entry entry = wanted;
    wanted = null;
    if (entry != null && later) {
      Map<String, Entry> rest = new LinkedHashMap<>(waiting);
      waiting.clear();
      waiting.put(entry.id(), entry);
      waiting.putAll(rest);
      notBefore = now.plus(LATER);
    }
    return Optional.ofNullable(entry).map(Entry::happenedAt);
  }

  /** Nobody answered. */
  void lapse(Instant now) {
    if (wanted != null) {
      wanted = null;
      notBefore = now.plus(LATER);
    }
  }
}

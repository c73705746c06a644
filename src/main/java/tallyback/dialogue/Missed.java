package tallyback.dialogue;

import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.Undone;

/**
 * What was called out and not understood, until it is settled; and when it is time to remind of it.
 */
final class Missed {

  /**
   * So many dB better than when it was missed, and it is worth saying again: half the noise's sound
   * pressure. A choice of our own, no source.
   */
  static final int CLEARLY_QUIETER_DB = 6;

  /** Below this, noise is the likely reason: from here down hearing asks for more. */
  private static final int NOISY_DB = 25;

  private static final DateTimeFormatter HOUR_AND_MINUTE =
      DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final List<Entry> open = new ArrayList<>();
  private final Map<String, List<Entry>> settledBy = new HashMap<>();
  private final Set<String> reminded = new HashSet<>();

  static boolean noisy(@Nullable Integer snrDb) {
    return snrDb == null || snrDb < NOISY_DB;
  }

  boolean isEmpty() {
    return open.isEmpty();
  }

  /** Takes every entry of the job in order. */
  void add(Entry entry) {
    if (entry.statement() instanceof NotUnderstood) {
      open.add(entry);
    } else if (entry.certainty() == Certainty.UNCONFIRMED) {
      return;
    } else if (entry.statement() instanceof NotUnderstoodSettled settled) {
      String target = settled.target();
      List<Entry> those =
          target == null
              ? List.copyOf(open)
              : open.stream().filter(each -> each.id().equals(target)).toList();
      settledBy.put(settled.by() == null ? entry.id() : settled.by(), those);
      open.removeAll(those);
    } else if (entry.statement() instanceof Undone undone && undone.target() != null) {
      open.addAll(0, Optional.ofNullable(settledBy.remove(undone.target())).orElse(List.of()));
    }
  }

  /**
   * The reminder, once for each thing missed, when it has become clearly quieter.
   *
   * @param snrDb speech to noise now; null when not measured
   * @param asksAgain whether what was kept in the noise is asked for, so that it needs no reminder
   */
  Optional<String> reminder(@Nullable Integer snrDb, boolean asksAgain) {
    if (snrDb == null) {
      return Optional.empty();
    }
    List<Entry> due =
        open.stream()
            .filter(entry -> !(asksAgain && missed(entry).inNoise()))
            .filter(entry -> !reminded.contains(entry.id()) && isQuieter(snrDb, entry))
            .toList();
    due.forEach(entry -> reminded.add(entry.id()));
    return due.isEmpty()
        ? Optional.empty()
        : Optional.of(Texts.reminder(due.stream().map(Missed::clockTime).distinct().toList()));
  }

  private static boolean isQuieter(int snrDb, Entry missed) {
    Integer then = missed(missed).snrDb();
    return then == null || snrDb >= then + CLEARLY_QUIETER_DB;
  }

  private static NotUnderstood missed(Entry entry) {
    return (NotUnderstood) entry.statement();
  }

  private static String clockTime(Entry entry) {
    return HOUR_AND_MINUTE.format(ZonedDateTime.ofInstant(entry.happenedAt(), entry.zone()));
  }
}

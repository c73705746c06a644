package tallyback.reconcile;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Statement.Measured;

/** The temperatures told, by what they are of. Filled once, then only read. */
final class Temperatures {

  private final List<At<Measured>> all = new ArrayList<>();
  private final List<At<Measured>> ofNothingNamed = new ArrayList<>();
  private final Map<String, List<At<Measured>>> bySubject = new HashMap<>();

  /** Sorts readings that are in the order in which they were told. */
  Temperatures(List<At<Measured>> readings) {
    for (At<Measured> reading : readings) {
      Amount amount = reading.statement().amount();
      if (amount != null && amount.unit().dimension() == Dimension.TEMPERATURE) {
        add(reading);
      }
    }
  }

  private void add(At<Measured> reading) {
    String subject = reading.statement().subject();
    all.add(reading);
    if (subject == null) {
      ofNothingNamed.add(reading);
    } else {
      bySubject.computeIfAbsent(subject, key -> new ArrayList<>()).add(reading);
    }
  }

  /**
   * The last one told before a place, of the same subject or of none; without one, what was said as
   * the very next thing after it.
   *
   * @param subject empty for any
   */
  @Nullable At<Measured> upTo(String subject, int position) {
    if (subject.isEmpty()) {
      return upTo(all, position);
    }
    At<Measured> own = upTo(bySubject.getOrDefault(subject, List.of()), position);
    At<Measured> any = upTo(ofNothingNamed, position);
    if (own == null || any == null) {
      return own == null ? any : own;
    }
    boolean ownIsNext = own.position() > position;
    boolean anyIsNext = any.position() > position;
    if (ownIsNext != anyIsNext) {
      return ownIsNext ? any : own;
    }
    return own.position() > any.position() ? own : any;
  }

  private static @Nullable At<Measured> upTo(List<At<Measured>> told, int position) {
    int next = At.firstFrom(told, position);
    if (next > 0) {
      return told.get(next - 1);
    }
    int after = At.firstFrom(told, position + 1);
    return after < told.size() && told.get(after).position() == position + 1
        ? told.get(after)
        : null;
  }
}

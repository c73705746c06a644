package tallyback.reconcile;

import static tallyback.model.Statement.MachineState.BATTERY_OFF;
import static tallyback.model.Statement.MachineState.BATTERY_ON;
import static tallyback.model.Statement.MachineState.CAP_CLOSED;
import static tallyback.model.Statement.MachineState.CAP_OPEN;
import static tallyback.model.Statement.MachineState.COLD;
import static tallyback.model.Statement.MachineState.GUARDS_OFF;
import static tallyback.model.Statement.MachineState.GUARDS_ON;
import static tallyback.model.Statement.MachineState.HOT;
import static tallyback.model.Statement.MachineState.KEY_OUT;
import static tallyback.model.Statement.MachineState.LEAK;
import static tallyback.model.Statement.MachineState.NO_LEAK;
import static tallyback.model.Statement.MachineState.ON_STANDS;
import static tallyback.model.Statement.MachineState.ON_WHEELS;
import static tallyback.model.Statement.MachineState.PRESSURE_OFF;
import static tallyback.model.Statement.MachineState.RUNNING;
import static tallyback.model.Statement.MachineState.STOPPED;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.StateSaid;

/**
 * Which states of the machine were said, in order. Common practice, no source: which state puts an
 * end to which.
 */
final class StateHistory {

  private static final Map<MachineState, Set<MachineState>> ENDED_BY = endings();

  private final List<At<StateSaid>> said = new ArrayList<>();
  private final Map<MachineState, List<At<StateSaid>>> saidByState =
      new EnumMap<>(MachineState.class);

  private static Map<MachineState, Set<MachineState>> endings() {
    Map<MachineState, Set<MachineState>> endings = new EnumMap<>(MachineState.class);
    endings.put(COLD, EnumSet.of(HOT, RUNNING));
    endings.put(HOT, EnumSet.of(COLD));
    endings.put(BATTERY_OFF, EnumSet.of(BATTERY_ON));
    endings.put(BATTERY_ON, EnumSet.of(BATTERY_OFF));
    endings.put(ON_STANDS, EnumSet.of(ON_WHEELS));
    endings.put(ON_WHEELS, EnumSet.of(ON_STANDS));
    endings.put(KEY_OUT, EnumSet.of(RUNNING));
    endings.put(PRESSURE_OFF, EnumSet.of(RUNNING));
    endings.put(CAP_OPEN, EnumSet.of(CAP_CLOSED));
    endings.put(CAP_CLOSED, EnumSet.of(CAP_OPEN));
    endings.put(GUARDS_ON, EnumSet.of(GUARDS_OFF));
    endings.put(GUARDS_OFF, EnumSet.of(GUARDS_ON));
    endings.put(RUNNING, EnumSet.of(STOPPED));
    endings.put(STOPPED, EnumSet.of(RUNNING));
    endings.put(LEAK, EnumSet.of(NO_LEAK));
    endings.put(NO_LEAK, EnumSet.of(LEAK));
    return endings;
  }

  /** Adds the next state; positions never go back. */
  void add(At<StateSaid> state) {
    said.add(state);
    saidByState.computeIfAbsent(state.statement().state(), key -> new ArrayList<>()).add(state);
  }

  List<At<StateSaid>> all() {
    return said;
  }

  List<At<StateSaid>> all(MachineState state) {
    return saidByState.getOrDefault(state, List.of());
  }

  boolean everSaid(MachineState state) {
    return !all(state).isEmpty();
  }

  /** The last time one of the states was said before a position. */
  Optional<At<StateSaid>> lastBefore(int position, Set<MachineState> states) {
    At<StateSaid> last = null;
    for (MachineState state : states) {
      List<At<StateSaid>> ofState = all(state);
      int next = At.firstFrom(ofState, position);
      if (next > 0 && (last == null || ofState.get(next - 1).position() > last.position())) {
        last = ofState.get(next - 1);
      }
    }
    return Optional.ofNullable(last);
  }

  /** The first time one of the states was said after a position. */
  Optional<At<StateSaid>> firstAfter(int position, Set<MachineState> states) {
    At<StateSaid> first = null;
    for (MachineState state : states) {
      List<At<StateSaid>> ofState = all(state);
      int next = At.firstFrom(ofState, position + 1);
      if (next < ofState.size()
          && (first == null || ofState.get(next).position() < first.position())) {
        first = ofState.get(next);
      }
    }
    return Optional.ofNullable(first);
  }

  /** True when one of the states was said between two positions, both left out. */
  boolean anyBetween(int after, int before, Set<MachineState> states) {
    return firstAfter(after, states).filter(each -> each.position() < before).isPresent();
  }

  /** True when the state was said before a position and nothing has put an end to it since. */
  boolean holdsBefore(int position, MachineState state) {
    Optional<At<StateSaid>> last = lastBefore(position, EnumSet.of(state));
    return last.isPresent()
        && !anyBetween(last.get().position(), position, ENDED_BY.getOrDefault(state, Set.of()));
  }
}

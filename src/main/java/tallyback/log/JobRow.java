package tallyback.log;

import java.time.Instant;
import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/**
 * A job as a list of many shows it. Kept by the log for speed; what counts are the entries.
 *
 * @param id the job
 * @param plan name of its plan, as frozen when it was opened
 * @param planHash SHA-256 (hex) of the plan's text
 * @param machine the machine's name, as the frozen plan gives it; empty when it gives none
 * @param serial the machine's serial number, likewise, or null
 * @param owner whose machine it is, as typed last; empty when nobody did
 * @param openedAt when the opening happened
 * @param zone the time zone of the shop at the opening
 * @param lastAt when the latest thing told in it happened
 * @param entries how many entries it holds, the opening among them
 * @param closed true when nothing more is noted in it, but on a visit
 * @param closings how often it was closed, each time with a seal
 * @param unread why it can't be read by this version, in words; empty when it can
 */
public record JobRow(
    String id,
    String plan,
    String planHash,
    String machine,
    @Nullable String serial,
    String owner,
    Instant openedAt,
    ZoneId zone,
    Instant lastAt,
    long entries,
    boolean closed,
    int closings,
    String unread) {

  /** How a job stands. */
  public enum State {
    /** Never closed. */
    OPEN,
    /** Closed and sealed. */
    CLOSED,
    /** Open again by a visit, after it was closed. */
    VISITED
  }

  /** How it stands. */
  public State state() {
    if (closed) {
      return State.CLOSED;
    }
    return closings > 0 ? State.VISITED : State.OPEN;
  }

  /**
   * Whether another job was done on the same machine: by name and serial number; where neither plan
   * gives a number, by the name and the owner as typed. An empty name says nothing.
   */
  public boolean sameMachine(JobRow other) {
    if (machine.isEmpty() || !machine.equals(other.machine)) {
      return false;
    }
    if (serial != null || other.serial != null) {
      return serial != null && serial.equals(other.serial);
    }
    return owner.equals(other.owner);
  }
}

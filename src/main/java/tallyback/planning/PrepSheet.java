package tallyback.planning;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement.FluidForm;
import tallyback.plan.Plan.ThreadState;

/**
 * What is laid out before a job, or is still wanting in the middle of one. Immutable; lists keep
 * the order of the plan unless said otherwise.
 *
 * @param tools sockets and wrenches, the smallest first; last, if any, what has no size in the plan
 * @param wrenches the torque wrenches of the plan and what each of them is for
 * @param noWrench torques that no wrench of the plan is made for, the smallest first
 * @param torqueFromManual fasteners without a torque in the plan
 * @param angle items that are turned further by an angle
 * @param catches what comes out where
 * @param fluids what is poured in
 * @param parts what is renewed
 * @param threads what goes on threads
 * @param temporary what goes in for the job and must come out again
 * @param sides how left and right are meant
 * @param cautions each caution once, in the order of the steps
 * @param time how long it takes
 */
public record PrepSheet(
    List<Tool> tools,
    List<Wrench> wrenches,
    List<Tightening> noWrench,
    List<Use> torqueFromManual,
    List<Use> angle,
    List<Catch> catches,
    List<FluidNeed> fluids,
    List<Part> parts,
    List<OnThreads> threads,
    List<Use> temporary,
    String sides,
    List<String> cautions,
    Time time) {

  /** Copies its lists. */
  public PrepSheet {
    tools = List.copyOf(tools);
    wrenches = List.copyOf(wrenches);
    noWrench = List.copyOf(noWrench);
    torqueFromManual = List.copyOf(torqueFromManual);
    angle = List.copyOf(angle);
    catches = List.copyOf(catches);
    fluids = List.copyOf(fluids);
    parts = List.copyOf(parts);
    threads = List.copyOf(threads);
    temporary = List.copyOf(temporary);
    cautions = List.copyOf(cautions);
  }

  /**
   * Items for which something is used.
   *
   * @param item name of the group
   * @param count how many
   * @param at name of the place or item they sit at, or empty
   */
  public record Use(String item, int count, String at) {}

  /**
   * A socket or wrench.
   *
   * @param size across flats, or null for what has no size in the plan
   * @param drive such as {@code hex}, or empty
   * @param uses what for
   */
  public record Tool(@Nullable Amount size, String drive, List<Use> uses) {

    /** Copies its list. */
    public Tool {
      uses = List.copyOf(uses);
    }

    /** How many fasteners in all. */
    public int count() {
      return uses.stream().mapToInt(Use::count).sum();
    }
  }

  /**
   * Fasteners and how tight they are to be.
   *
   * @param use which
   * @param torque the maker's torque
   */
  public record Tightening(Use use, Amount torque) {}

  /**
   * A torque wrench.
   *
   * @param name its name
   * @param from lower end of its scale
   * @param to upper end of its scale
   * @param calibrated day of calibration as ISO 8601, or empty
   * @param tightenings what it is for, the smallest torque first; empty for nothing
   */
  public record Wrench(
      String name, Amount from, Amount to, String calibrated, List<Tightening> tightenings) {

    /** Copies its list. */
    public Wrench {
      tightenings = List.copyOf(tightenings);
    }
  }

  /**
   * Where fluid comes out of a system.
   *
   * @param system name of the system
   * @param points drain points with what usually comes out there; without an amount where the plan
   *     doesn't say
   * @param sum all of it in litres; empty when the plan doesn't say it of each point
   */
  public record Catch(String system, List<Drained> points, Optional<Amount> sum) {

    /** Copies its list. */
    public Catch {
      points = List.copyOf(points);
    }
  }

  /**
   * A drain point.
   *
   * @param point its name
   * @param share what usually comes out there, or null
   */
  public record Drained(String point, @Nullable Amount share) {}

  /**
   * What is poured into a system.
   *
   * @param system its name
   * @param fluid name of the fluid
   * @param grade the maker's grade
   * @param form concentrate, premix or water; null for oils
   * @param litres how much to have at hand; empty when the plan doesn't say enough
   * @param stays what stays inside of the old fluid; empty likewise
   * @param rounds how often it is filled and drained so that little enough of the old fluid stays;
   *     1 for once, 0 when no number does it or the plan doesn't say
   * @param mix concentrate and water for it, for a concentrate whose strength is known
   */
  public record FluidNeed(
      String system,
      String fluid,
      String grade,
      @Nullable FluidForm form,
      Optional<Amount> litres,
      Optional<Amount> stays,
      int rounds,
      Optional<Mix> mix) {}

  /**
   * Concentrate and water for a wanted protection. What stays inside may be anything between water
   * and as strong as wanted.
   *
   * @param protectsTo the protection aimed at
   * @param concentrateIfStrong concentrate if what stays is as strong as wanted
   * @param waterIfStrong water with it
   * @param concentrateIfWater concentrate if what stays is plain water; empty when that can't be
   *     done without more draining
   * @param waterIfWater water with it
   */
  public record Mix(
      Amount protectsTo,
      Amount concentrateIfStrong,
      Amount waterIfStrong,
      Optional<Amount> concentrateIfWater,
      Optional<Amount> waterIfWater) {}

  /** Why a part is on the list. */
  public enum Why {
    /** The plan renews it. */
    RENEWED,
    /** A stretch bolt. */
    STRETCH,
    /** It was thrown away, broke, or is lost. */
    GONE
  }

  /**
   * A part to buy or to have at hand.
   *
   * @param use which, how many, where
   * @param what thread, length and property class as far as the plan knows, or empty
   * @param why why it is on the list
   */
  public record Part(Use use, String what, Why why) {}

  /**
   * What goes on threads.
   *
   * @param state how they are to be
   * @param uses on which
   */
  public record OnThreads(ThreadState state, List<Use> uses) {

    /** Copies its list. */
    public OnThreads {
      uses = List.copyOf(uses);
    }
  }

  /**
   * How long it takes.
   *
   * @param minutes the sum over the steps of which the plan says it
   * @param stepsWithout steps of which it doesn't
   * @param past working minutes of past jobs of this plan, the shortest first; empty for none
   */
  public record Time(int minutes, int stepsWithout, List<Integer> past) {

    /** Copies its list. */
    public Time {
      past = List.copyOf(past);
    }
  }
}

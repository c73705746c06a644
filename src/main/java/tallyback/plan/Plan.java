package tallyback.plan;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.TorqueAt;
import tallyback.model.Unit;

/**
 * The expected job, read and checked. All lists keep the order of the file; ids are unique over the
 * whole plan, lower case with hyphens; {@code say} lists are the spoken names, lower case, first
 * one preferred.
 *
 * @param name what the job is called
 * @param text the file's text as it was read, frozen into the job
 * @param hash SHA-256 (hex) of the text in UTF-8
 * @param machine the machine
 * @param people who may speak or check
 * @param fluids the fluids used
 * @param systems the fluid systems
 * @param places named places that are neither item nor drain point
 * @param items everything that comes off and goes back, and temporary items
 * @param steps what is to be done
 * @param instruments vessels, wrenches, gauges
 * @param limits expected readings
 * @param pronunciations extra words with their ARPAbet pronunciations
 * @param open values that the plan leaves to the maker's manual, in the order of the file
 * @param basis what it is based on: that says what is expected because of it
 */
public record Plan(
    String name,
    String text,
    String hash,
    Machine machine,
    List<Person> people,
    List<Fluid> fluids,
    List<FluidSystem> systems,
    List<Place> places,
    List<Item> items,
    List<Step> steps,
    List<Instrument> instruments,
    List<Limit> limits,
    Map<String, List<String>> pronunciations,
    List<Open> open,
    Basis basis) {

  /** Copies its collections. */
  public Plan {
    people = List.copyOf(people);
    fluids = List.copyOf(fluids);
    systems = List.copyOf(systems);
    places = List.copyOf(places);
    items = List.copyOf(items);
    steps = List.copyOf(steps);
    instruments = List.copyOf(instruments);
    limits = List.copyOf(limits);
    pronunciations = Map.copyOf(pronunciations);
    open = List.copyOf(open);
  }

  /** One that somebody wrote, and that leaves nothing open. */
  public Plan(
      String name,
      String text,
      String hash,
      Machine machine,
      List<Person> people,
      List<Fluid> fluids,
      List<FluidSystem> systems,
      List<Place> places,
      List<Item> items,
      List<Step> steps,
      List<Instrument> instruments,
      List<Limit> limits,
      Map<String, List<String>> pronunciations) {
    this(
        name,
        text,
        hash,
        machine,
        people,
        fluids,
        systems,
        places,
        items,
        steps,
        instruments,
        limits,
        pronunciations,
        List.of(),
        Basis.WRITTEN);
  }

  /**
   * A value that the plan leaves to the maker's manual.
   *
   * @param subject id of the item, system or point, or of what a limit is about
   * @param field which value: the field's name; of a limit the measure before it, such as {@code
   *     thickness from}
   */
  public record Open(String subject, String field) {}

  /** Whether the plan says that this value must be entered from the maker's manual. */
  public boolean leavesOpen(String subject, String field) {
    return open.contains(new Open(subject, field));
  }

  /** What a plan is based on. */
  public enum Basis {
    /** Somebody wrote what is to be done: all of it is expected. */
    WRITTEN,
    /**
     * Names to speak with, and no more: what comes off is expected to go back. A count above one
     * only says that there may be several.
     */
    NAMES,
    /**
     * Drawn from a tear-down: a step is done when its items were told, its order is a suggestion,
     * and every thread without a torque is to be torqued or said to be tight by feel.
     */
    TEAR_DOWN
  }

  /** Anything with an id and spoken names. */
  public sealed interface Named
      permits Person, Fluid, FluidSystem, Point, LevelMark, Place, Item, Step, Instrument {
    /** Unique id. */
    String id();

    /** Spoken names, the preferred one first; never empty. */
    List<String> say();

    /** The preferred spoken name. */
    default String label() {
      return say().get(0);
    }
  }

  /**
   * The machine worked on.
   *
   * @param name maker and model
   * @param serial number of this one machine, or null
   * @param sides how left and right are meant, in words
   */
  public record Machine(String name, @Nullable String serial, String sides) {}

  /** Somebody who may speak or check. */
  public record Person(String id, List<String> say) implements Named {

    /** The preferred name with capitals, as names are written. */
    @Override
    public String label() {
      return INITIAL
          .matcher(say.get(0))
          .replaceAll(initial -> initial.group().toUpperCase(Locale.ROOT));
    }

    private static final Pattern INITIAL = Pattern.compile("(?<![\\p{L}'])\\p{L}");
  }

  /**
   * A fluid.
   *
   * @param id id
   * @param say spoken names
   * @param grade maker's grade in words, compared as text
   * @param form concentrate, premix or water; null for oils
   * @param base what it is made of, or null when unknown: then nothing is worked out from it
   * @param strength glycol in it in percent by volume, or null when unknown
   * @param litreWeighs what a litre of it weighs, or null when the plan doesn't say
   */
  public record Fluid(
      String id,
      List<String> say,
      String grade,
      @Nullable FluidForm form,
      @Nullable FluidBase base,
      @Nullable Amount strength,
      @Nullable Amount litreWeighs)
      implements Named {}

  /** What a fluid is made of. */
  public enum FluidBase {
    /** Ethylene glycol, neat or with water. */
    ETHYLENE_GLYCOL,
    /** Propylene glycol, neat or with water. */
    PROPYLENE_GLYCOL,
    /** Plain water. */
    WATER,
    /** Engine, gear or hydraulic oil. */
    OIL
  }

  /**
   * A drain or fill point.
   *
   * @param id id
   * @param say spoken names
   * @param share how much usually comes out here, or null
   * @param plug id of the item that closes it, or null
   */
  public record Point(String id, List<String> say, @Nullable Amount share, @Nullable String plug)
      implements Named {}

  /**
   * A level mark.
   *
   * @param id id
   * @param say spoken names
   * @param cold true for a mark that holds for a cold engine
   */
  public record LevelMark(String id, List<String> say, boolean cold) implements Named {}

  /**
   * A fluid system.
   *
   * @param id id
   * @param say spoken names
   * @param fluid id of the fluid it must be filled with
   * @param capacity book capacity, or null when unknown
   * @param before content before the job, or null when unknown
   * @param matters a shortage or excess smaller than this does not matter to the machine, or null
   * @param dryParts what new parts that go in dry will hold, or null for none
   * @param oldAtMost the largest share of old fluid that may stay, in percent, or null
   * @param drains drain points
   * @param fills fill points
   * @param marks level marks
   */
  public record FluidSystem(
      String id,
      List<String> say,
      String fluid,
      @Nullable Amount capacity,
      @Nullable Amount before,
      @Nullable Amount matters,
      @Nullable Amount dryParts,
      @Nullable Amount oldAtMost,
      List<Point> drains,
      List<Point> fills,
      List<LevelMark> marks)
      implements Named {}

  /** A place that is neither an item nor a drain or fill point. */
  public record Place(String id, List<String> say) implements Named {}

  /** How a thread is to be when it is tightened. */
  public enum ThreadState {
    /** Clean and dry. */
    DRY,
    /** Oiled. */
    OILED,
    /** With thread-lock. */
    THREAD_LOCK
  }

  /**
   * How tight a fastener is to be.
   *
   * @param value the maker's torque
   * @param plus how far above is still right, in the unit of value
   * @param minus how far below is still right, in the unit of value
   * @param toleranceFrom where the tolerance comes from, in words
   * @param passes number of passes the maker asks for; 1 when he doesn't
   * @param angle further turn in degrees, or null
   * @param threads dry, oiled or thread-lock, or null when the maker doesn't say
   * @param into what the thread is cut into, or null when the plan doesn't say
   * @param sequence true when the maker gives a sequence
   * @param againAfterHeat true when it must be tightened again after running warm
   * @param againAfter distance or running time after which it must be tightened again, or null
   */
  public record Torque(
      Amount value,
      Amount plus,
      Amount minus,
      String toleranceFrom,
      int passes,
      @Nullable Amount angle,
      @Nullable ThreadState threads,
      @Nullable ThreadedInto into,
      boolean sequence,
      boolean againAfterHeat,
      @Nullable Amount againAfter) {}

  /** What a thread is cut into. */
  public enum ThreadedInto {
    /** Steel, or a nut. */
    STEEL,
    /** Cast iron. */
    IRON,
    /** Aluminium or another light metal. */
    ALUMINIUM,
    /** Brass. */
    BRASS,
    /** Plastic. */
    PLASTIC
  }

  /**
   * An alignment mark on an item.
   *
   * @param angle where it must point, in degrees clockwise from twelve o'clock
   * @param tolerance allowed deviation in degrees
   */
  public record Alignment(Amount angle, Amount tolerance) {}

  /**
   * A group of equal fasteners, or one part.
   *
   * @param id id
   * @param say spoken names
   * @param thing what sort of thing
   * @param count how many, at least 1
   * @param of id of the place or item it fastens or sits at, or null
   * @param thread thread in words such as {@code M8x1.25}, or null
   * @param head head size across flats, or null
   * @param drive drive in words such as {@code hex}, or null
   * @param length length under the head, or null
   * @param grade property class such as {@code 8.8}, or null
   * @param torque how tight, or null
   * @param stretch true for a stretch bolt
   * @param renew true when it must be new each time
   * @param carryOver true when it moves over from the old part to the new one
   * @param temporary true when it goes in during the job and must come out again
   * @param alignment its alignment mark, or null
   */
  public record Item(
      String id,
      List<String> say,
      Thing thing,
      int count,
      @Nullable String of,
      @Nullable String thread,
      @Nullable Amount head,
      @Nullable String drive,
      @Nullable Amount length,
      @Nullable String grade,
      @Nullable Torque torque,
      boolean stretch,
      boolean renew,
      boolean carryOver,
      boolean temporary,
      @Nullable Alignment alignment)
      implements Named {

    /** Whether name or drive say that it has a hole along it, so that it bears less. */
    public boolean hollow() {
      return Stream.concat(Stream.of(id, drive == null ? "" : drive), say.stream())
          .anyMatch(each -> each.contains("banjo") || each.contains("hollow"));
    }
  }

  /**
   * A step of the job.
   *
   * @param id id
   * @param say spoken names
   * @param off ids of the items that come off in it
   * @param on ids of the items that go on in it
   * @param needs ids of the steps that must be done first
   * @param states states of the machine that must have been said before
   * @param minutes how long it usually takes, or null
   * @param cautions what to mind, said before the step
   * @param injury of those of which the plan says it, whether people may be injured
   */
  public record Step(
      String id,
      List<String> say,
      List<String> off,
      List<String> on,
      List<String> needs,
      List<MachineState> states,
      @Nullable Integer minutes,
      List<String> cautions,
      Map<String, Boolean> injury)
      implements Named {

    /** Copies what may change. */
    public Step {
      injury = Map.copyOf(injury);
    }

    /** One whose plan doesn't say what its cautions are about. */
    public Step(
        String id,
        List<String> say,
        List<String> off,
        List<String> on,
        List<String> needs,
        List<MachineState> states,
        @Nullable Integer minutes,
        List<String> cautions) {
      this(id, say, off, on, needs, states, minutes, cautions, Map.of());
    }
  }

  /** What an instrument is for. */
  public enum InstrumentKind {
    /** Jug, flask, bottle: reads volume. */
    VESSEL,
    /** Torque wrench. */
    WRENCH,
    /** Anything else that shows a value. */
    GAUGE
  }

  /**
   * A vessel, wrench or gauge.
   *
   * @param id id
   * @param say spoken names
   * @param kind what it is for
   * @param unit the unit of its scale
   * @param from lower end of its range, in unit
   * @param to upper end of its range, in unit
   * @param tolerancePercent tolerance in percent of the reading, or null
   * @param tolerance tolerance as an amount, or null; exactly one of the two is given, or of a
   *     wrench none: then the standard's class holds
   * @param calibrated date of calibration as ISO 8601, or null
   * @param adapter a crowfoot or other adapter that is on the wrench, or null
   */
  public record Instrument(
      String id,
      List<String> say,
      InstrumentKind kind,
      Unit unit,
      Amount from,
      Amount to,
      java.math.@Nullable BigDecimal tolerancePercent,
      @Nullable Amount tolerance,
      @Nullable String calibrated,
      @Nullable Adapter adapter)
      implements Named {}

  /**
   * A crowfoot or other adapter that lengthens a wrench.
   *
   * @param wrench length of the wrench, from its square to the middle of its grip
   * @param reach reach of the adapter, from the square to the bolt
   * @param angle angle between wrench and adapter in degrees; 0 is in line
   * @param said what the values said with it mean, or null when that has to be asked
   */
  public record Adapter(Amount wrench, Amount reach, Amount angle, @Nullable TorqueAt said) {

    private static final Rational RIGHT_ANGLE = Amount.of("90", Unit.DEGREE).base();

    /** False at a right angle, where the wrench shows what reaches the bolt. */
    public boolean changesTorque() {
      return angle.base().compareTo(RIGHT_ANGLE) != 0;
    }
  }

  /**
   * What a reading is expected to show.
   *
   * @param subject id of the system, place or item
   * @param measure what is read
   * @param from lowest right value, or null
   * @param to highest right value, or null
   * @param drop how far a pressure may fall while it is held, or null
   * @param minutes how long a pressure must be held, or null
   */
  public record Limit(
      String subject,
      tallyback.model.Statement.Measure measure,
      @Nullable Amount from,
      @Nullable Amount to,
      @Nullable Amount drop,
      @Nullable Integer minutes) {}

  /** Everything with an id, in file order. */
  public List<Named> named() {
    java.util.ArrayList<Named> all = new java.util.ArrayList<>();
    all.addAll(people);
    all.addAll(fluids);
    for (FluidSystem system : systems) {
      all.add(system);
      all.addAll(system.drains());
      all.addAll(system.fills());
      all.addAll(system.marks());
    }
    all.addAll(places);
    all.addAll(items);
    all.addAll(steps);
    all.addAll(instruments);
    return List.copyOf(all);
  }

  /** What has this id. */
  public Optional<Named> find(String id) {
    return named().stream().filter(named -> named.id().equals(id)).findFirst();
  }

  /** The item with this id. */
  public Optional<Item> item(String id) {
    return items.stream().filter(item -> item.id().equals(id)).findFirst();
  }

  /** The step with this id. */
  public Optional<Step> step(String id) {
    return steps.stream().filter(step -> step.id().equals(id)).findFirst();
  }

  /** The instrument with this id. */
  public Optional<Instrument> instrument(String id) {
    return instruments.stream().filter(each -> each.id().equals(id)).findFirst();
  }

  /** The system that has this id, or owns the drain point, fill point or mark with this id. */
  public Optional<FluidSystem> system(String id) {
    return systems.stream()
        .filter(
            system ->
                system.id().equals(id)
                    || system.drains().stream().anyMatch(point -> point.id().equals(id))
                    || system.fills().stream().anyMatch(point -> point.id().equals(id))
                    || system.marks().stream().anyMatch(mark -> mark.id().equals(id)))
        .findFirst();
  }

  /** The preferred spoken name of what has this id, or the id itself. */
  public String label(String id) {
    return find(id).map(Named::label).orElse(id);
  }
}

package tallyback.phrase;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Rational;
import tallyback.model.Statement;
import tallyback.model.Statement.FellWhere;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.TighteningOrder;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Statement.TorqueAt;
import tallyback.model.Statement.Trouble;
import tallyback.model.Statement.Warmth;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.Item;

/**
 * Makes a meaning of what the grammar gives out for a phrase. Uses the plan only to know what a
 * name stands for; never takes a value or a unit from what the plan expects. The one unit it may
 * add is that of the wrench or vessel the speaker named.
 *
 * <p>Thread rule: immutable; share freely.
 */
final class StatementReader {

  private static final Set<Thing> FASTENERS =
      Set.of(
          Thing.BOLT,
          Thing.NUT,
          Thing.SCREW,
          Thing.STUD,
          Thing.WASHER,
          Thing.CLIP,
          Thing.CLAMP,
          Thing.PLUG,
          Thing.PIN);

  private static final BigDecimal DEGREES_IN_AN_HOUR_OF_THE_CLOCK = BigDecimal.valueOf(30);

  private final Plan plan;

  StatementReader(Plan plan) {
    this.plan = plan;
  }

  Meaning meaning(String words, Parse parse) {
    Said said = new Said(parse.pieces());
    Value main = main(said);
    Statement statement = statement(said, main.amount());
    List<Unit> choices = main.choices();
    if (choices.isEmpty()) {
      choices = said.choices("temperature");
    }
    if (said.has("correction")) {
      statement = new Statement.Corrected(Statement.LAST_ENTRY, statement);
    }
    Amount ago = statement instanceof Statement.WasEarlier ? null : said.amount("ago");
    return new Meaning(words, statement, ago, choices, further(said));
  }

  private record Value(@Nullable Amount amount, List<Unit> choices) {}

  /**
   * The value of the phrase; a unit left open is closed by the scale of the instrument that was
   * named, if it fits there.
   */
  private Value main(Said said) {
    Amount amount = said.amount(Said.MAIN);
    List<Unit> choices = said.choices(Said.MAIN);
    Instrument named = instrument(said);
    if (amount != null
        && amount.unitUnsaid()
        && named != null
        && choices.contains(named.unit())
        && onScale(amount, named)) {
      return new Value(new Amount(amount.value(), named.unit()), List.of());
    }
    return new Value(amount, choices);
  }

  private @Nullable Instrument instrument(Said said) {
    for (String key : List.of("wrench", "vessel", "gauge")) {
      String id = said.get(key);
      if (id != null) {
        return plan.instrument(id).orElse(null);
      }
    }
    return null;
  }

  private static boolean onScale(Amount amount, Instrument instrument) {
    Rational value = new Amount(amount.value(), instrument.unit()).base();
    return value.compareTo(instrument.from().base()) >= 0
        && value.compareTo(instrument.to().base()) <= 0;
  }

  private List<Statement> further(Said said) {
    List<Statement> further = new ArrayList<>();
    said.all("also")
        .forEach(state -> further.add(new Statement.StateSaid(MachineState.valueOf(state), null)));
    String called = said.get("called");
    if (called != null) {
      ItemMove move =
          Set.of("CAP_OPEN", "BATTERY_OFF").contains(said.need("state"))
              ? ItemMove.OFF
              : ItemMove.ON;
      PlanNames.itemCalled(plan, called)
          .ifPresent(
              item ->
                  further.add(
                      new Statement.ItemsMoved(
                          move, item.id(), null, null, false, null, null, null)));
    }
    return further;
  }

  private Statement statement(Said said, @Nullable Amount amount) {
    String kind = said.need("kind");
    return switch (kind) {
      case "fluid" -> fluid(said, amount);
      case "items" -> items(said);
      case "broke" -> broke(said);
      case "new" -> renewed(said);
      case "old" -> new Statement.PartFitted(said.need("item"), PartCondition.OLD);
      case "carried" -> new Statement.PartFitted(said.need("item"), PartCondition.CARRIED_OVER);
      case "aligned" -> new Statement.Aligned(said.need("item"), angle(said));
      case "again" -> new Statement.SameAgain(fastenerAt(said), placeAt(said));
      case "more" -> more(said, amount);
      case "torqued" -> torqued(said, amount);
      case "turned" -> tightened(said, TightnessState.ANGLE_DONE, null, turn(said));
      case "tight" -> tightened(said, said.constant("state", TightnessState.class), null, null);
      case "level" ->
          new Statement.Measured(
              Measure.LEVEL,
              null,
              said.constant("level", Level.class),
              said.get("mark"),
              subject(said),
              warmth(said),
              null);
      case "step" ->
          new Statement.StepMarked(said.need("step"), said.constant("mark", StepMark.class));
      case "state" ->
          new Statement.StateSaid(said.constant("state", MachineState.class), subject(said));
      case "speaker" -> new Statement.SpeakerIs(said.need("person"));
      case "second" -> new Statement.SecondCheck(said.get("person"), said.get("item"));
      case "trouble" -> new Statement.ProblemSeen(trouble(said), subject(said));
      case "timer" ->
          new Statement.TimerSet(
              Objects.requireNonNull(said.amount("after")), subject(said), said.has("level"));
      case "look_again" ->
          new Statement.LookAgain(
              Objects.requireNonNull(said.count()),
              said.constant("span", Statement.Span.class),
              subject(said),
              said.has("level"));
      case "film_mark" -> new Statement.FilmMark(said.count());
      case "cancel_timer" -> new Statement.CancelTimer(said.has("all"));
      case "photo" -> new Statement.PhotoMarked(subject(said));
      case "memo" -> new Statement.Memo(null, null, subject(said));
      case "missed" -> new Statement.NotUnderstoodSettled();
      case "pause" -> new Statement.Paused();
      case "resume" -> new Statement.Resumed();
      case "night" -> new Statement.LeftForNight();
      case "close" -> new Statement.JobClosed();
      case "undo" -> new Statement.Undone(null);
      case "change" -> new Statement.ChangeLast(amount, fastenerAt(said), placeAt(said));
      case "change_named" -> changeNamed(said, Objects.requireNonNull(amount));
      case "undo_named" ->
          new Statement.UndoNamed(Objects.requireNonNull(firstOf(said, "item", "at")));
      case "other_reading" -> new Statement.OtherReading();
      case "earlier" -> new Statement.WasEarlier(Objects.requireNonNull(said.amount("ago")));
      case "answer" ->
          new Statement.Answer(yes(said), amount, amount == null ? said.bareUnit() : null);
      case "named" -> new Statement.Named(named(said));
      case "torque_at" -> new Statement.MeantAt(said.constant("torque_at", TorqueAt.class));
      case "fell" -> new Statement.Fell(said.constant("fell", FellWhere.class));
      case "put_off" -> new Statement.PutOff(said.has("later"));
      case "chosen" -> new Statement.Chosen(Integer.parseInt(said.need("choice")));
      default ->
          new Statement.Measured(
              Measure.valueOf(kind),
              amount == null ? said.amount("size") : amount,
              null,
              null,
              subject(said),
              null,
              said.get("gauge"));
    };
  }

  private Statement fluid(Said said, @Nullable Amount amount) {
    String at = firstOf(said, "at", "item");
    String system = at == null ? null : plan.system(at).map(Plan.FluidSystem::id).orElse(null);
    return new Statement.FluidMoved(
        said.constant("move", FluidMove.class),
        amount,
        said.has("about"),
        said.get("fluid"),
        said.constantOrNull("form", FluidForm.class),
        system,
        Objects.equals(at, system) ? null : at,
        said.get("vessel"),
        warmth(said),
        said.amount("temperature"));
  }

  private Statement more(Said said, @Nullable Amount amount) {
    return amount == null
        ? new Statement.MoreOfSame(null, said.count(), fastenerAt(said), placeAt(said))
        : new Statement.MoreOfSame(amount, null, null, said.get("at"));
  }

  private static Statement changeNamed(Said said, Amount amount) {
    return new Statement.ChangeNamed(
        Objects.requireNonNull(firstOf(said, "item", "at")), amount, said.amount("was"));
  }

  private Statement items(Said said) {
    ItemMove move = said.constant("move", ItemMove.class);
    String item = said.get("item");
    String place = said.get("at");
    if (said.has("of")) {
      place = firstOf(said, "item", "at");
      item = null;
    }
    boolean temporary = item != null && plan.item(item).map(Item::temporary).orElse(false);
    if (temporary && (move == ItemMove.OFF || move == ItemMove.ON)) {
      return new Statement.TemporaryMoved(
          move == ItemMove.ON, Objects.requireNonNull(item), said.count());
    }
    return new Statement.ItemsMoved(
        move,
        item,
        said.constantOrNull("thing", Thing.class),
        said.count(),
        said.has("lump"),
        said.amount("size"),
        place,
        said.constantOrNull("fell", FellWhere.class));
  }

  /** What has the fasteners that were named by it: "belly pan" of "belly pan bolts"; or null. */
  private static @Nullable String holder(Said said) {
    return said.has("of") ? said.get("item") : null;
  }

  /** "One clip broke" takes a clip out of use; "the guard broke" tells of a fault. */
  private static Statement broke(Said said) {
    if (said.count() == null && said.has("item") && !said.has("lump") && !said.has("of")) {
      return new Statement.ProblemSeen(Trouble.BROKEN, said.get("item"));
    }
    return new Statement.ItemsMoved(
        ItemMove.SHEARED,
        holder(said) == null ? said.get("item") : null,
        said.constantOrNull("thing", Thing.class),
        said.count(),
        said.has("lump"),
        said.amount("size"),
        holder(said),
        null);
  }

  /** A single part is fitted new; a group of fasteners moves from stock onto the machine. */
  private Statement renewed(Said said) {
    String item = holder(said) == null ? said.get("item") : null;
    boolean part =
        item != null
            && said.count() == null
            && plan.item(item).map(each -> each.count() == 1).orElse(false);
    if (part) {
      return new Statement.PartFitted(Objects.requireNonNull(item), PartCondition.NEW);
    }
    return new Statement.ItemsMoved(
        ItemMove.NEW_ON,
        item,
        said.constantOrNull("thing", Thing.class),
        said.count(),
        false,
        said.amount("size"),
        holder(said),
        null);
  }

  private Statement torqued(Said said, @Nullable Amount torque) {
    Amount turn = turn(said);
    if (turn != null) {
      return tightened(said, TightnessState.ANGLE_DONE, torque, turn);
    }
    // "Tightened" with no value says nothing of a wrench.
    boolean byFeel =
        torque == null
            && said.has("verb")
            && said.need("verb").equals("tightened")
            && !said.has("wrench");
    return tightened(said, byFeel ? TightnessState.BY_FEEL : TightnessState.TORQUED, torque, null);
  }

  private Statement tightened(
      Said said, TightnessState state, @Nullable Amount torque, @Nullable Amount turn) {
    String name = said.get("item");
    boolean fastener = name != null && !said.has("of") && isFastener(name);
    Integer count = said.count();
    String pass = said.get("pass");
    return new Statement.Tightened(
        state,
        fastener ? name : null,
        fastener ? null : name,
        said.constantOrNull("thing", Thing.class),
        count,
        said.has("lump") && count == null,
        torque,
        pass == null ? null : Integer.valueOf(pass),
        turn,
        said.get("wrench"),
        said.constantOrNull("torque_at", TorqueAt.class),
        said.constantOrNull("order", TighteningOrder.class));
  }

  private boolean isFastener(String id) {
    return plan.item(id).map(StatementReader::isFastener).orElse(false);
  }

  /** A sensor that is screwed in has a torque of its own, so it counts too. */
  static boolean isFastener(Item item) {
    return FASTENERS.contains(item.thing()) || item.torque() != null;
  }

  private static @Nullable Amount turn(Said said) {
    Amount degrees = said.amount("angle");
    Amount fixed = said.amount("size");
    return degrees == null && fixed != null && fixed.unit() == Unit.DEGREE ? fixed : degrees;
  }

  private static @Nullable Amount angle(Said said) {
    String clock = said.get("clock");
    if (clock == null) {
      return said.amount("angle");
    }
    BigDecimal hour = BigDecimal.valueOf(Integer.parseInt(clock) % 12);
    return new Amount(hour.multiply(DEGREES_IN_AN_HOUR_OF_THE_CLOCK), Unit.DEGREE);
  }

  private static Trouble trouble(Said said) {
    Trouble trouble = said.constantOrNull("trouble", Trouble.class);
    return trouble == null ? Trouble.UNSPECIFIED : trouble;
  }

  private static @Nullable Warmth warmth(Said said) {
    return said.constantOrNull("warmth", Warmth.class);
  }

  private static @Nullable Boolean yes(Said said) {
    String yes = said.get("yes");
    return yes == null ? null : Boolean.valueOf(yes);
  }

  /**
   * What is leaking, cracked or photographed: of a drain point and the plug of the same name, the
   * plug.
   */
  private @Nullable String subject(Said said) {
    String id = firstOf(said, "item", "at");
    return id == null ? null : plugCalledTheSame(id).map(Item::id).orElse(id);
  }

  private Optional<Item> plugCalledTheSame(String point) {
    return plan.systems().stream()
        .flatMap(system -> Stream.concat(system.drains().stream(), system.fills().stream()))
        .filter(each -> each.id().equals(point) && each.plug() != null)
        .flatMap(
            each ->
                plan.item(Objects.requireNonNull(each.plug())).stream()
                    .filter(plug -> plug.say().stream().anyMatch(each.say()::contains)))
        .findFirst();
  }

  private static String named(Said said) {
    for (String key : List.of("at", "person", "vessel", "wrench")) {
      String id = said.get(key);
      if (id != null) {
        return id;
      }
    }
    return said.need("gauge");
  }

  private @Nullable String fastenerAt(Said said) {
    String at = said.get("at");
    return at != null && isFastener(at) ? at : null;
  }

  private @Nullable String placeAt(Said said) {
    String at = said.get("at");
    return at != null && isFastener(at) ? null : at;
  }

  private static @Nullable String firstOf(Said said, String key, String otherKey) {
    String first = said.get(key);
    return first != null ? first : said.get(otherKey);
  }
}

package tallyback.phrase;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Statement.Answer;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TorqueAt;
import tallyback.model.Statement.Trouble;
import tallyback.model.Unit;
import tallyback.plan.Plan;

/**
 * How each statement is said back. The spoken line is, where it can be, a phrase of the grammar
 * itself, so that it teaches the phrase; the written one is for tables. All text the user meets
 * here is in this class (English only).
 *
 * <p>Thread rule: immutable; share freely.
 */
public final class ReadBackText {

  private static final Map<String, String> PARTS_OF_AN_HOUR =
      Map.of(
          "0.25", "a quarter of an hour",
          "0.5", "half an hour",
          "0.75", "three quarters of an hour",
          "1", "one hour",
          "1.5", "an hour and a half");

  private static final String BETWEEN = " · ";

  private final Plan plan;
  private final String atTheBolt;

  /** For the names of a plan. */
  public ReadBackText(Plan plan) {
    this.plan = plan;
    this.atTheBolt = PlanNames.atTheBolt(plan);
  }

  /** A value with its unit, as it is said aloud where it can't be misheard. */
  public static String aloud(Amount amount) {
    return UnitWords.spoken(amount);
  }

  /** A count in words: "seven". */
  public static String aloud(int count) {
    return count < 0 || count > 999 ? Integer.toString(count) : NumberWords.cardinal(count);
  }

  /** How a statement is said back. */
  public ReadBack of(Statement statement) {
    if (statement instanceof FluidMoved fluid) {
      return new ReadBack(spoken(fluid), written(fluid));
    }
    if (statement instanceof ItemsMoved items) {
      return new ReadBack(spoken(items), written(items));
    }
    if (statement instanceof Tightened tightened) {
      return new ReadBack(spoken(tightened), written(tightened));
    }
    if (statement instanceof Measured measured) {
      return new ReadBack(spoken(measured), written(measured));
    }
    if (statement instanceof Statement.Corrected corrected) {
      ReadBack now = of(corrected.now());
      return new ReadBack("correction " + now.spoken(), "correction: " + now.written());
    }
    if (statement instanceof Statement.AddedLater added) {
      ReadBack now = of(added.now());
      return new ReadBack("added " + now.spoken(), "added: " + now.written());
    }
    if (statement instanceof Statement.FindingAnswered answered) {
      String text = answered.by() + " " + word(answered.end()) + ": " + answered.why();
      return new ReadBack(text, text);
    }
    if (statement instanceof Statement.ChangeLast change && change.value() != null) {
      return new ReadBack(
          "correction " + UnitWords.spoken(change.value()), "change to " + change.value());
    }
    if (statement instanceof Statement.ChangeNamed change) {
      String not = change.was() == null ? "" : " not " + UnitWords.spoken(change.was());
      return new ReadBack(
          "the " + label(change.subject()) + " was " + UnitWords.spoken(change.value()) + not,
          label(change.subject()) + ": " + number(change.value()));
    }
    if (statement instanceof Statement.MoreOfSame more && more.amount() != null) {
      String where = opt(" from the ", more.place());
      return new ReadBack(
          "and " + UnitWords.spoken(more.amount()) + where,
          "the same again: " + more.amount() + where);
    }
    if (statement instanceof Answer answer && answer.value() != null) {
      return new ReadBack(
          no(answer) + UnitWords.spoken(answer.value()), no(answer) + answer.value());
    }
    if (statement instanceof Statement.PhotoMarked photo && photo.number() != null) {
      String of = photo.subject() == null ? "" : ", " + label(photo.subject());
      return new ReadBack("photo " + aloud(photo.number()) + of, "photo " + photo.number() + of);
    }
    if (statement instanceof Statement.PictureTaken picture) {
      String which = picture.photo() == null ? "" : " of photo " + aloud(picture.photo());
      return new ReadBack(
          "picture" + which,
          "picture "
              + picture.file()
              + (picture.photo() == null ? "" : ", photo " + picture.photo()));
    }
    if (statement instanceof Statement.FilmMark mark && mark.number() != null) {
      return new ReadBack("camera mark " + aloud(mark.number()), "camera mark " + mark.number());
    }
    if (statement instanceof Statement.LookAgain again) {
      String what = again.level() ? " at the level" : opt(" at the ", again.subject());
      return new ReadBack(
          "look again" + what + " " + until(again), "look again" + what + " " + after(again));
    }
    if (statement instanceof Statement.Memo memo) {
      return memo(memo);
    }
    if (statement instanceof Statement.Written written) {
      String text = written.about().words() + ": " + written.text();
      return new ReadBack(text, text);
    }
    String same = plain(statement);
    return new ReadBack(same, same);
  }

  /** "in 13 days", "in 1 week", "tomorrow". */
  private static String after(Statement.LookAgain again) {
    if (again.count() == 1 && again.span() == Statement.Span.DAYS) {
      return "tomorrow";
    }
    String span = word(again.span());
    return "in "
        + again.count()
        + " "
        + (again.count() == 1 ? span.substring(0, span.length() - 1) : span);
  }

  /** As it is said: "tomorrow", "in a year"; teens and tens once more digit by digit. */
  private static String until(Statement.LookAgain again) {
    String span = word(again.span());
    if (again.count() == 1) {
      return again.span() == Statement.Span.DAYS
          ? "tomorrow"
          : "in "
              + (again.span() == Statement.Span.HOURS ? "an " : "a ")
              + span.substring(0, span.length() - 1);
    }
    if (again.span() == Statement.Span.MONTHS && again.count() == 12) {
      return "in a year";
    }
    String number = aloud(again.count());
    String digits = NumberWords.readBack(BigDecimal.valueOf(again.count()));
    return "in " + number + " " + span + (digits.equals(number) ? "" : ", " + digits);
  }

  private ReadBack memo(Statement.Memo memo) {
    String subject = memo.subject();
    String what = subject == null ? "memo" : "name of " + label(subject);
    if (memo.text() != null) {
      String text = what + ": " + memo.text();
      return new ReadBack(text, text);
    }
    Integer seconds = memo.seconds();
    return seconds == null
        ? new ReadBack(subject == null ? "voice memo" : what, subject == null ? "voice memo" : what)
        : new ReadBack(
            what + ", " + aloud(seconds) + (seconds == 1 ? " second" : " seconds") + ", kept",
            what + ", " + seconds + " s, kept");
  }

  private static String no(Answer answer) {
    return Boolean.FALSE.equals(answer.yes()) ? "no " : "";
  }

  // ---- fluids

  private String spoken(FluidMoved fluid) {
    String amount =
        fluid.amount() == null
            ? ""
            : (fluid.about() ? "about " : "") + UnitWords.spoken(fluid.amount());
    String substance = substance(fluid);
    String of = substance.isEmpty() ? "" : " of " + substance;
    String place = label(fluid.place() != null ? fluid.place() : fluid.system());
    if (amount.isEmpty()) {
      return withoutAmount(fluid, substance, place);
    }
    String out = (place.isEmpty() ? "" : " from the " + place) + opt(" into the ", fluid.vessel());
    String in = (place.isEmpty() ? "" : " into the " + place) + opt(" from the ", fluid.vessel());
    String said =
        switch (fluid.move()) {
          case OUT -> "drained " + amount + of + out;
          case IN -> "poured in " + amount + of + in;
          case LOST -> "spilled " + amount + of + out;
          case PUT_BACK -> "poured back " + amount + of + in;
          case TO_WASTE -> "tipped out " + amount + of + out;
          case BLED_OUT -> "bled out " + amount + of + out;
          case LEFT_IN_PART -> amount + of + " left in the " + place;
        };
    return said + warmth(fluid);
  }

  private String withoutAmount(FluidMoved fluid, String substance, String place) {
    String the = place.isEmpty() ? "" : " the " + place;
    return switch (fluid.move()) {
      case OUT -> "drained" + the + opt(" into the ", fluid.vessel());
      case IN -> "filled" + the + (substance.isEmpty() ? "" : " with " + substance);
      case LOST -> ("spilled some " + substance).strip();
      case PUT_BACK -> "put back" + the;
      case TO_WASTE -> "tipped out" + the;
      case BLED_OUT -> "bled" + the;
      case LEFT_IN_PART -> "some left in" + the;
    };
  }

  private String substance(FluidMoved fluid) {
    String form = fluid.form() == null ? "" : word(fluid.form());
    return (label(fluid.fluid()) + " " + form).strip();
  }

  private static String warmth(FluidMoved fluid) {
    if (fluid.temperature() != null) {
      return " at " + UnitWords.spoken(fluid.temperature());
    }
    return fluid.warmth() == null ? "" : " " + word(fluid.warmth());
  }

  private String written(FluidMoved fluid) {
    String verb =
        switch (fluid.move()) {
          case OUT -> "drained";
          case IN -> "filled";
          case LOST -> "lost";
          case PUT_BACK -> "put back";
          case TO_WASTE -> "to waste";
          case BLED_OUT -> "bled out";
          case LEFT_IN_PART -> "left in part";
        };
    String amount =
        fluid.amount() == null
            ? ""
            : " " + (fluid.about() ? "about " : "") + number(fluid.amount());
    return parts(
        verb + amount,
        substance(fluid),
        label(fluid.place() != null ? fluid.place() : fluid.system()),
        label(fluid.vessel()),
        fluid.temperature() == null ? "" : fluid.temperature().toString(),
        fluid.warmth() == null ? "" : word(fluid.warmth()));
  }

  // ---- items

  private String spoken(ItemsMoved items) {
    String what = things(items);
    String place = items.place() == null ? "" : label(items.place());
    String fell =
        items.where() == null
            ? ""
            : items.where() == Statement.FellWhere.MACHINE ? " in the machine" : " on the floor";
    String said =
        switch (items.move()) {
          case OFF -> what + " off" + the(place);
          case ON -> what + " back on" + the(place);
          case NEW_ON -> newThings(items) + " in";
          case MISSING -> what.isEmpty() ? "lost it" : what + " missing";
          case DROPPED -> (what.isEmpty() ? "dropped it" : what + " dropped") + fell;
          case FOUND -> "found " + (what.isEmpty() ? "it" : what);
          case SHEARED -> what + " sheared";
          case SCRAPPED -> what + " scrapped";
        };
    boolean placeSaid =
        items.move() == Statement.ItemMove.OFF || items.move() == Statement.ItemMove.ON;
    return said.strip()
        + (placeSaid || place.isEmpty() ? "" : ", at the " + place)
        + countAgain(items.count());
  }

  private static String the(String place) {
    return place.isEmpty() ? "" : " the " + place;
  }

  private String newThings(ItemsMoved items) {
    String count = items.count() == null ? "" : NumberWords.cardinal(items.count()) + " ";
    return count
        + "new "
        + (items.item() != null ? label(items.item()) : noun(items.thing(), items.count()));
  }

  private String things(ItemsMoved items) {
    String all = items.lump() ? "all " : "";
    String count = items.count() == null ? "" : NumberWords.cardinal(items.count()) + " ";
    String name = items.item() != null ? label(items.item()) : noun(items.thing(), items.count());
    String size = items.headSize() == null ? "" : " " + headSize(items, name);
    return (all + count + name + size).strip().replaceAll("\\s+", " ");
  }

  /** "Five tens" when no noun was said. */
  private static String headSize(ItemsMoved items, String name) {
    Amount size = Objects.requireNonNull(items.headSize());
    return name.isEmpty() && size.unit() == Unit.MILLIMETRE
        ? TypedLine.plural(NumberWords.words(size.value()))
        : UnitWords.headSize(size);
  }

  private static String noun(@Nullable Thing thing, @Nullable Integer count) {
    if (thing == null) {
      return "";
    }
    return word(thing) + (count != null && count == 1 ? "" : "s");
  }

  /** Thirteen could be heard as thirty: such a count is said once more digit by digit. */
  private static String countAgain(@Nullable Integer count) {
    if (count == null) {
      return "";
    }
    String digits = NumberWords.readBack(BigDecimal.valueOf(count));
    return digits.equals(NumberWords.cardinal(count)) ? "" : ", " + digits;
  }

  private String written(ItemsMoved items) {
    String verb =
        switch (items.move()) {
          case OFF -> "off";
          case ON -> "on";
          case NEW_ON -> "new on";
          case SCRAPPED -> "scrapped";
          case MISSING -> "missing";
          case DROPPED -> "dropped";
          case FOUND -> "found";
          case SHEARED -> "sheared";
        };
    String count = items.count() == null ? "" : items.count() + " × ";
    String name = items.item() != null ? label(items.item()) : noun(items.thing(), items.count());
    String lump = items.lump() ? "all, not counted" : "";
    String size = items.headSize() == null ? "" : items.headSize().toString();
    String fell =
        items.where() == null
            ? ""
            : items.where() == Statement.FellWhere.MACHINE ? "into the machine" : "on the floor";
    String what = (count + name).isEmpty() ? verb : verb + " " + count + name;
    return parts(what.replaceAll(" × $", ""), size, lump, label(items.place()), fell);
  }

  // ---- tightness

  private String spoken(Tightened tight) {
    String what = tightened(tight);
    String pass = tight.pass() == null ? "" : " " + ordinal(tight.pass()) + " pass";
    String turn = tight.angle() == null ? "" : UnitWords.spoken(tight.angle());
    String wrench = opt(" with the ", tight.wrench()) + meantAt(tight) + order(tight);
    if (tight.torque() != null) {
      String plus = turn.isEmpty() ? "" : " plus " + turn;
      String subject = what.isEmpty() ? "torqued" : what;
      return subject
          + pass
          + " to "
          + UnitWords.spoken(tight.torque())
          + plus
          + wrench
          + countAgain(tight.count());
    }
    String state =
        switch (tight.state()) {
          case STARTED -> "started by hand";
          case HAND_TIGHT -> "hand tight";
          case BY_FEEL -> "tight by feel";
          case TORQUED -> "torqued" + pass + wrench;
          case ANGLE_DONE -> turn.isEmpty() ? "angle done" : "turned " + turn;
          case CHECKED -> "checked";
        };
    String other = tight.state() == Statement.TightnessState.TORQUED ? "" : pass + wrench;
    return (what + " " + state).strip() + other + countAgain(tight.count());
  }

  private String tightened(Tightened tight) {
    String all = tight.lump() ? "all " : "";
    String count = tight.count() == null ? "" : NumberWords.cardinal(tight.count()) + " ";
    String name = fasteners(tight);
    String of = name.isEmpty() && tight.count() != null ? "of them" : "";
    String ofAll = name.isEmpty() && tight.lump() ? "of them" : "";
    return (all + count + name + of + ofAll).strip();
  }

  /** By their own name, or by what they hold: "belly pan bolts". */
  private String fasteners(Tightened tight) {
    String named = label(tight.item() != null ? tight.item() : tight.place());
    boolean held = tight.item() == null && tight.place() != null && tight.thing() != null;
    return named.isEmpty() || held
        ? (named + " " + noun(tight.thing(), tight.count())).strip()
        : named;
  }

  private static String ordinal(int number) {
    return switch (number) {
      case 1 -> "first";
      case 2 -> "second";
      case 3 -> "third";
      default -> "fourth";
    };
  }

  private String written(Tightened tight) {
    String state =
        tight.state() == Statement.TightnessState.BY_FEEL ? "tight by feel" : word(tight.state());
    String count = tight.count() == null ? "" : tight.count() + " × ";
    String name = fasteners(tight);
    return parts(
        (state + " " + count + name).strip().replaceAll(" ×$", ""),
        tight.lump() ? "all, not counted" : "",
        tight.torque() == null ? "" : number(tight.torque()),
        tight.angle() == null ? "" : "turned " + tight.angle(),
        tight.pass() == null ? "" : ordinal(tight.pass()) + " pass",
        label(tight.wrench()),
        meantAt(tight).strip(),
        order(tight).strip());
  }

  private String meantAt(Tightened tight) {
    return tight.torqueAt() == null ? "" : " " + meantAt(tight.torqueAt());
  }

  private String meantAt(TorqueAt at) {
    return at == TorqueAt.AT_WRENCH ? PlanNames.AT_THE_WRENCH : atTheBolt;
  }

  private static String order(Tightened tight) {
    if (tight.order() == null) {
      return "";
    }
    return switch (tight.order()) {
      case IN_SEQUENCE -> " in sequence";
      case CROSSWISE -> " crosswise";
    };
  }

  // ---- readings

  private String spoken(Measured measured) {
    String subject = measured.subject() == null ? "" : label(measured.subject()) + " ";
    String gauge = opt(" on the ", measured.instrument());
    if (measured.measure() == Statement.Measure.LEVEL) {
      return subject
          + "level "
          + level(measured)
          + (measured.warmth() == null ? "" : " " + word(measured.warmth()));
    }
    String value = measured.amount() == null ? "" : UnitWords.spoken(measured.amount());
    return (subject + measure(measured) + " " + value).strip() + gauge;
  }

  private static String measure(Measured measured) {
    return switch (measured.measure()) {
      case SPEED -> "engine speed";
      case HOURS -> "hour meter";
      case DISTANCE -> "odometer";
      default -> word(measured.measure());
    };
  }

  private String level(Measured measured) {
    String mark = measured.mark() == null ? "mark" : label(measured.mark());
    if (measured.level() == null) {
      return "read";
    }
    return switch (measured.level()) {
      case BELOW -> measured.mark() == null ? "low" : "below the " + mark;
      case AT -> "at the " + mark;
      case ABOVE -> "above the " + mark;
    };
  }

  private String written(Measured measured) {
    String subject = label(measured.subject());
    String what =
        (subject
                + " "
                + (measured.measure() == Statement.Measure.LEVEL ? "level" : measure(measured)))
            .strip();
    String value =
        measured.measure() == Statement.Measure.LEVEL
            ? level(measured)
            : measured.amount() == null ? "" : number(measured.amount());
    return parts(
        what + " " + value,
        measured.warmth() == null ? "" : word(measured.warmth()),
        label(measured.instrument()));
  }

  // ---- the rest: the same line spoken and written

  private String plain(Statement statement) {
    if (statement instanceof Statement.TemporaryMoved moved) {
      String count = moved.count() == null ? "" : NumberWords.cardinal(moved.count()) + " ";
      return count + label(moved.item()) + (moved.in() ? " in" : " out");
    }
    if (statement instanceof Statement.StepMarked step) {
      return label(step.step())
          + switch (step.mark()) {
            case STARTED -> " started";
            case DONE -> " done";
            case SKIPPED -> " skipped";
            case REDONE -> " done again";
          };
    }
    if (statement instanceof Statement.PartFitted part) {
      return switch (part.condition()) {
        case NEW -> "new " + label(part.item()) + " in";
        case OLD -> "old " + label(part.item()) + " back in";
        case CARRIED_OVER -> label(part.item()) + " carried over";
      };
    }
    if (statement instanceof Statement.Aligned aligned) {
      return label(aligned.item()) + " " + pointing(aligned.angle());
    }
    if (statement instanceof Statement.StateSaid said) {
      return state(said.state()) + (said.place() == null ? "" : statePlace(said));
    }
    if (statement instanceof Statement.ProblemSeen problem) {
      return trouble(problem);
    }
    if (statement instanceof Statement.PhotoMarked photo) {
      return photo.subject() == null ? "photo taken" : "photo of the " + label(photo.subject());
    }
    if (statement instanceof Statement.CautionAnswered caution) {
      return caution.understood()
          ? "understood"
          : "gone on without understood, " + label(caution.step());
    }
    if (statement instanceof Statement.TimerSet timer) {
      String check = timer.level() ? " to check the level" : opt(" to check the ", timer.subject());
      return "remind me in " + lapse(timer.after()) + check;
    }
    if (statement instanceof Statement.SpeakerIs speaker) {
      return label(speaker.person()) + " speaking";
    }
    if (statement instanceof Statement.SecondCheck check) {
      String who = check.person() == null ? "second person" : label(check.person());
      return who + " checked" + (check.subject() == null ? "" : " the " + label(check.subject()));
    }
    return brief(statement);
  }

  private String brief(Statement statement) {
    if (statement instanceof Statement.SameAgain again) {
      return "same again" + opt(" on the ", again.item() != null ? again.item() : again.place());
    }
    if (statement instanceof Statement.MoreOfSame more) {
      String count =
          more.count() == null ? "another one" : NumberWords.cardinal(more.count()) + " more";
      return "and " + count + opt(" off the ", more.item() != null ? more.item() : more.place());
    }
    if (statement instanceof Statement.ChangeLast change) {
      return "correction" + opt(" the ", change.item() != null ? change.item() : change.place());
    }
    if (statement instanceof Statement.UndoNamed undo) {
      return "scratch the " + label(undo.subject());
    }
    if (statement instanceof Statement.OtherReading) {
      return "the other reading";
    }
    if (statement instanceof Statement.CancelTimer cancel) {
      return cancel.all() ? "cancel all timers" : "cancel the timer";
    }
    if (statement instanceof Statement.TimersCancelled) {
      return "cancel all timers";
    }
    if (statement instanceof Statement.WasEarlier earlier) {
      return "that was " + UnitWords.plain(earlier.ago()) + " ago";
    }
    if (statement instanceof Answer answer) {
      return answer.yes() == null
          ? (answer.unit() == null ? "" : UnitWords.unit(answer.unit()))
          : answer.yes() ? "yes" : "no";
    }
    if (statement instanceof Statement.Named named) {
      return "the " + label(named.id());
    }
    if (statement instanceof Statement.MeantAt meant) {
      return meantAt(meant.at());
    }
    if (statement instanceof Statement.Fell fell) {
      return fell.where() == Statement.FellWhere.MACHINE ? "in the machine" : "on the floor";
    }
    if (statement instanceof Statement.PutOff off) {
      return off.later() ? "ask me later" : "skip it";
    }
    if (statement instanceof Statement.Chosen chosen) {
      return "the " + (chosen.number() == 1 ? "first" : "second") + " one";
    }
    if (statement instanceof Statement.FilmMark) {
      return "camera mark";
    }
    if (statement instanceof Statement.Undone) {
      return "scratch that";
    }
    if (statement instanceof Statement.NotUnderstood) {
      return "not understood";
    }
    if (statement instanceof Statement.NotUnderstoodSettled settled) {
      return settled.target() == null
          ? "never mind what you missed"
          : "what was not understood was said again";
    }
    if (statement instanceof Statement.Paused) {
      return "taking a break";
    }
    if (statement instanceof Statement.Resumed) {
      return "carry on";
    }
    if (statement instanceof Statement.LeftForNight) {
      return "leaving for the night";
    }
    if (statement instanceof Statement.JobClosed) {
      return "the job is finished";
    }
    if (statement instanceof Statement.VisitBegun visit) {
      return visit.why() == null ? "a visit" : "a visit: " + visit.why();
    }
    if (statement instanceof Statement.JobOpened opened) {
      return "job opened: " + opened.planName();
    }
    if (statement instanceof Statement.Retimed) {
      return "time changed";
    }
    return statement.getClass().getSimpleName().toLowerCase(Locale.ROOT);
  }

  /** "ten minutes", "half an hour": teens and tens once more digit by digit. */
  public static String lapse(Amount time) {
    if (time.unit() != Unit.HOUR) {
      String digits = NumberWords.readBack(time.value());
      String plain = UnitWords.plain(time);
      return plain.startsWith(digits + " ") ? plain : plain + ", " + digits;
    }
    BigDecimal hours = time.value();
    for (Map.Entry<String, String> each : PARTS_OF_AN_HOUR.entrySet()) {
      if (hours.compareTo(new BigDecimal(each.getKey())) == 0) {
        return each.getValue();
      }
    }
    return UnitWords.plain(time);
  }

  private static String pointing(@Nullable Amount angle) {
    if (angle == null) {
      return "lined up";
    }
    BigDecimal[] hours = angle.value().divideAndRemainder(BigDecimal.valueOf(30));
    if (hours[1].signum() == 0 && hours[0].intValueExact() >= 0 && hours[0].intValueExact() < 12) {
      int hour = hours[0].intValueExact();
      return "at " + NumberWords.cardinal(hour == 0 ? 12 : hour) + " o'clock";
    }
    return "at " + UnitWords.spoken(angle);
  }

  private String trouble(Statement.ProblemSeen problem) {
    String subject = label(problem.subject());
    if (problem.trouble() == Trouble.UNSPECIFIED) {
      return subject.isEmpty() ? "found a problem" : "problem with the " + subject;
    }
    String what = problem.trouble() == Trouble.LEAKING ? "was leaking" : word(problem.trouble());
    return (subject + " " + what).strip();
  }

  private String statePlace(Statement.StateSaid said) {
    return switch (said.state()) {
      case LEAK, NO_LEAK -> " at the " + label(said.place());
      default -> " the " + label(said.place());
    };
  }

  private static String state(MachineState state) {
    return switch (state) {
      case COLD -> "engine cold";
      case HOT -> "engine hot";
      case BATTERY_OFF -> "battery off";
      case BATTERY_ON -> "battery back on";
      case ON_STANDS -> "on stands";
      case ON_WHEELS -> "back on its wheels";
      case CHOCKED -> "wheels chocked";
      case KEY_OUT -> "key out";
      case IMPLEMENT_DOWN -> "implement down";
      case PRESSURE_OFF -> "pressure off";
      case CAP_OPEN -> "cap off";
      case CAP_CLOSED -> "cap back on";
      case GUARDS_ON -> "guards on";
      case GUARDS_OFF -> "guards off";
      case TURNED_BY_HAND -> "turned over by hand";
      case RUNNING -> "engine running";
      case STOPPED -> "engine stopped";
      case HEATER_ON -> "heater on full";
      case LEAK -> "leak";
      case NO_LEAK -> "no leak";
      case LAMPS_OUT -> "warning lights out";
      case TOOLS_OUT -> "tools out";
      case BLED -> "fully bled";
      case EYES_COVERED -> "eye protection on";
      case VENTILATED -> "doors open";
    };
  }

  // ---- words

  /** "19 N·m", or "19 (unit not said)": a bare number must not look as if it had one. */
  private static String number(Amount amount) {
    return amount.unitUnsaid()
        ? amount.value().toPlainString() + " (unit not said)"
        : amount.toString();
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private String opt(String before, @Nullable String id) {
    return id == null ? "" : before + label(id);
  }

  private String label(@Nullable String id) {
    if (id == null) {
      return "";
    }
    return switch (id) {
      case Statement.LEFT_SIDE -> "left side";
      case Statement.RIGHT_SIDE -> "right side";
      case Statement.OTHER_SIDE -> "other side";
      default -> plan.label(id);
    };
  }

  private static String parts(String... parts) {
    return Stream.of(parts)
        .filter(part -> !part.isBlank())
        .map(String::strip)
        .collect(Collectors.joining(BETWEEN));
  }
}

package tallyback.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.AddedLater;
import tallyback.model.Statement.Aligned;
import tallyback.model.Statement.Answer;
import tallyback.model.Statement.ChangeLast;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FindingAnswered;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.LeftForNight;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.Paused;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.ProblemSeen;
import tallyback.model.Statement.Resumed;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.SameAgain;
import tallyback.model.Statement.SecondCheck;
import tallyback.model.Statement.SpeakerIs;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TighteningOrder;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Statement.TorqueAt;
import tallyback.model.Statement.VisitBegun;
import tallyback.model.Statement.Warmth;
import tallyback.model.Statement.WasEarlier;
import tallyback.model.Unit;
import tallyback.plan.Plan;

/**
 * The meaning of an entry in one line: first what it is about, then what happened, then what else
 * was said. What was not said is named as not said where a reader could take its absence for a
 * pass.
 */
public final class StatementText {

  private final Plan plan;
  private final Trail trail;
  private final ShopTime time;

  /** For the entries of a job. */
  public StatementText(Plan plan, Trail trail, ShopTime time) {
    this.plan = plan;
    this.trail = trail;
    this.time = time;
  }

  /** The meaning of an entry as it was noted. */
  public String of(Entry entry) {
    return of(entry.statement(), entry);
  }

  private String of(Statement statement, Entry entry) {
    if (statement instanceof FluidMoved fluid) {
      return fluid(fluid);
    } else if (statement instanceof ItemsMoved items) {
      return items(items);
    } else if (statement instanceof TemporaryMoved temporary) {
      return line(
          plan.label(temporary.item()),
          counted(temporary.count(), temporary.in() ? "in" : "out again"));
    } else if (statement instanceof Tightened tightened) {
      return tightened(tightened);
    } else if (statement instanceof StepMarked step) {
      return line(plan.label(step.step()), step(step.mark()));
    } else if (statement instanceof Measured measured) {
      return measured(measured);
    } else if (statement instanceof PartFitted part) {
      return line(plan.label(part.item()), condition(part.condition()));
    } else if (statement instanceof Aligned aligned) {
      Amount angle = aligned.angle();
      return line(
          plan.label(aligned.item()),
          angle == null
              ? "mark lined up, no angle said"
              : "mark at " + angle + " from twelve o'clock");
    } else if (statement instanceof StateSaid said) {
      return line(state(said.state()), labelled("at", said.place()));
    } else if (statement instanceof SpeakerIs speaker) {
      return line(plan.label(speaker.person()), "speaking from here on");
    } else if (statement instanceof SecondCheck check) {
      return line(
          orUnsaid(check.subject(), "what was not said"),
          "checked by " + orUnsaid(check.person(), "a second person"));
    } else if (statement instanceof ProblemSeen problem) {
      return line(orUnsaid(problem.subject(), "something not named"), trouble(problem.trouble()));
    } else if (statement instanceof PhotoMarked photo) {
      Integer number = photo.number();
      return line(
          number == null ? "photo taken" : "photo " + number, labelled("of", photo.subject()));
    } else if (statement instanceof Statement.PictureTaken picture) {
      Integer number = picture.photo();
      return line("picture " + picture.file(), number == null ? "" : "photo " + number);
    } else if (statement instanceof Statement.CautionAnswered caution) {
      return line(
          "cautions of " + plan.label(caution.step()),
          caution.understood() ? "understood" : "went on without saying \"understood\"");
    } else if (statement instanceof Statement.TimerSet timer) {
      return line(
          "to be reminded after " + timer.after(),
          timer.level() ? "level" : "",
          labelled("at", timer.subject()));
    } else if (statement instanceof Statement.LookAgain again) {
      return line(
          again.level() ? "level" : orUnsaid(again.subject(), "the machine"),
          "look again " + when(again));
    } else if (statement instanceof Corrected corrected) {
      return because(
          trail.number(corrected.target()) + " now reads: " + of(corrected.now(), entry),
          corrected.why());
    } else if (statement instanceof Retimed retimed) {
      return because(
          trail.number(retimed.target())
              + " happened at "
              + time.at(retimed.happenedAt(), entry.zone()),
          retimed.why());
    } else if (statement instanceof AddedLater added) {
      return because(of(added.now(), entry) + "; added later", added.why());
    } else if (statement instanceof FindingAnswered answered) {
      return Wording.answer(answered);
    } else {
      return bare(statement);
    }
  }

  private static String because(String what, @Nullable String why) {
    return why == null ? what : what + " (" + why + ")";
  }

  private static String when(Statement.LookAgain again) {
    String spans = again.span().name().toLowerCase(Locale.ROOT);
    if (again.count() == 1) {
      return again.span() == Statement.Span.DAYS
          ? "tomorrow"
          : "in 1 " + spans.substring(0, spans.length() - 1);
    }
    return "in " + again.count() + " " + spans;
  }

  private String memo(Memo memo) {
    String what = memo.subject() == null ? "" : ", name of " + plan.label(memo.subject());
    if (memo.text() != null) {
      return "memo" + what + ": " + memo.text();
    }
    return memo.seconds() == null
        ? "spoken memo" + what + ", kept as sound"
        : "spoken memo" + what + ", " + memo.seconds() + " s, kept as sound";
  }

  private String settled(NotUnderstoodSettled settled) {
    String target = settled.target();
    String by = settled.by();
    if (target == null) {
      return "what was not understood before is settled";
    }
    return trail.number(target)
        + ", not understood, "
        + (by == null ? "is settled" : "was said again: " + trail.number(by));
  }

  /** Kinds that carry nothing which needs the plan. */
  private String bare(Statement statement) {
    if (statement instanceof Memo memo) {
      return memo(memo);
    } else if (statement instanceof Statement.Written written) {
      return written.about().words() + ": " + written.text();
    } else if (statement instanceof NotUnderstood missed) {
      return (missed.inNoise() ? "too noisy to trust" : "not understood") + ", kept as sound";
    } else if (statement instanceof NotUnderstoodSettled settled) {
      return settled(settled);
    } else if (statement instanceof Statement.FilmMark mark) {
      Integer number = mark.number();
      return number == null ? "camera mark" : "camera mark " + number;
    } else if (statement instanceof Statement.TimersCancelled) {
      return "no reminder is wanted any more";
    } else if (statement instanceof Statement.CancelTimer) {
      return "cancel the timer";
    } else if (statement instanceof tallyback.model.Statement.Undone undone) {
      String target = undone.target();
      return because(
          (target == null ? "the entry before" : trail.number(target)) + " withdrawn",
          undone.why());
    } else if (statement instanceof Paused) {
      return "work paused";
    } else if (statement instanceof Resumed) {
      return "work goes on";
    } else if (statement instanceof LeftForNight) {
      return "left for the night";
    } else if (statement instanceof JobOpened opened) {
      return "job opened with the plan " + opened.planName();
    } else if (statement instanceof JobClosed) {
      return "job closed";
    } else if (statement instanceof VisitBegun visit) {
      return line("visit after closing", visit.why() == null ? "" : visit.why());
    } else if (statement instanceof SameAgain again) {
      return line(
          "the same again", labelled("at", again.item() == null ? again.place() : again.item()));
    } else if (statement instanceof ChangeLast change) {
      Amount value = change.value();
      return line("change to the entry before", value == null ? "" : amount(value));
    } else if (statement instanceof Statement.ChangeNamed change) {
      return line(
          "change to an earlier entry about " + plan.label(change.subject()),
          amount(change.value()));
    } else if (statement instanceof Statement.UndoNamed undo) {
      return "the last entry about " + plan.label(undo.subject()) + " taken back";
    } else if (statement instanceof Statement.OtherReading) {
      return "what else the entry before may have been";
    } else if (statement instanceof Statement.Fell fell) {
      return line(
          "answer",
          fell.where() == Statement.FellWhere.MACHINE ? "in the machine" : "on the floor");
    } else if (statement instanceof WasEarlier earlier) {
      return "the entry before was " + earlier.ago() + " earlier";
    } else if (statement instanceof Answer answer) {
      return line("answer", answer(answer));
    } else if (statement instanceof Statement.MoreOfSame more) {
      Amount amount = more.amount();
      return line(
          "more of the same",
          amount == null ? "" : amount(amount),
          labelled("at", more.item() == null ? more.place() : more.item()));
    } else if (statement instanceof Statement.Named named) {
      return line("answer", labelled("at", named.id()));
    } else if (statement instanceof Statement.MeantAt meant) {
      return line("answer", meantAt(meant.at()));
    } else if (statement instanceof Statement.PutOff off) {
      return "answer: " + (off.later() ? "ask later" : "skip it");
    } else if (statement instanceof Statement.Chosen chosen) {
      return "answer: reading " + chosen.number();
    }
    throw new IllegalStateException("no text for " + statement.getClass().getSimpleName());
  }

  private String fluid(FluidMoved fluid) {
    Amount amount = fluid.amount();
    String much =
        amount == null ? "amount not said" : (fluid.about() ? "about " : "") + amount(amount);
    return line(
        orUnsaid(fluid.fluid() == null ? fluid.system() : fluid.fluid(), "fluid"),
        moved(fluid.move()) + " " + much,
        form(fluid.form()),
        labelled("at", fluid.place()),
        labelled("read in", fluid.vessel()),
        warmth(fluid.warmth()),
        fluid.temperature() == null ? "" : fluid.temperature().toString());
  }

  private static String moved(FluidMove move) {
    return switch (move) {
      case OUT -> "out";
      case IN -> "in";
      case LOST -> "spilled";
      case PUT_BACK -> "poured back";
      case TO_WASTE -> "to waste";
      case BLED_OUT -> "pushed out while bleeding";
      case LEFT_IN_PART -> "left in the old part";
    };
  }

  private static String form(@Nullable FluidForm form) {
    return form == null
        ? ""
        : switch (form) {
          case CONCENTRATE -> "neat concentrate";
          case PREMIX -> "ready mixed";
          case WATER -> "water";
        };
  }

  private static String warmth(@Nullable Warmth warmth) {
    return warmth == null ? "" : warmth == Warmth.COLD ? "cold" : "hot";
  }

  private String items(ItemsMoved items) {
    String where =
        items.where() == null
            ? ""
            : items.where() == tallyback.model.Statement.FellWhere.FLOOR
                ? "on the floor"
                : "in the machine";
    String thing =
        items.thing() == null ? "things" : items.thing().name().toLowerCase(Locale.ROOT) + "s";
    return line(
        items.item() == null ? unnamed(thing, items.place()) : plan.label(items.item()),
        counted(items.count(), moved(items.move())),
        items.lump()
            ? "said as a whole, not counted"
            : items.count() == null ? "number not said" : "",
        items.headSize() == null ? "" : "heads " + amount(items.headSize()),
        items.item() == null && plan.basis() == Plan.Basis.TEAR_DOWN
            ? ""
            : labelled("at", items.place()),
        where);
  }

  /** Where no plan has groups, fasteners are called by what they hold. */
  private String unnamed(String thing, @Nullable String place) {
    return place != null && plan.basis() == Plan.Basis.TEAR_DOWN
        ? plan.label(place) + " " + thing
        : thing + ", group not named";
  }

  private static String moved(ItemMove move) {
    return switch (move) {
      case OFF -> "off";
      case ON -> "back on";
      case NEW_ON -> "new, on";
      case SCRAPPED -> "thrown away";
      case MISSING -> "missing";
      case DROPPED -> "dropped";
      case FOUND -> "found again";
      case SHEARED -> "broken off";
    };
  }

  private String tightened(Tightened tightened) {
    Integer pass = tightened.pass();
    Amount angle = tightened.angle();
    String subject = tightened.item() == null ? tightened.place() : tightened.item();
    Thing thing = tightened.item() == null ? tightened.thing() : null;
    boolean held = plan.basis() == Plan.Basis.TEAR_DOWN;
    return line(
        held && thing != null
            ? unnamed(thing.name().toLowerCase(Locale.ROOT) + "s", tightened.place())
            : orUnsaid(subject, "fasteners, group not named"),
        counted(tightened.count(), tightness(tightened.state())),
        tightened.torque() == null ? "" : amount(tightened.torque()),
        pass == null ? "" : "pass " + pass,
        angle == null ? "" : "then " + angle + " further",
        tightened.lump() ? "said as a whole, not counted" : "",
        labelled("with", tightened.wrench()),
        tightened.torqueAt() == null ? "" : meantAt(tightened.torqueAt()),
        order(tightened.order()));
  }

  private static String meantAt(TorqueAt at) {
    return switch (at) {
      case AT_WRENCH -> "as the wrench shows";
      case AT_BOLT -> "at the bolt";
    };
  }

  private static String order(@Nullable TighteningOrder order) {
    if (order == null) {
      return "";
    }
    return switch (order) {
      case IN_SEQUENCE -> "in sequence";
      case CROSSWISE -> "crosswise";
    };
  }

  private static String tightness(TightnessState state) {
    return switch (state) {
      case STARTED -> "started by hand";
      case HAND_TIGHT -> "hand tight, not finished";
      case BY_FEEL -> "tight by feel";
      case TORQUED -> "torqued";
      case ANGLE_DONE -> "angle done";
      case CHECKED -> "checked";
    };
  }

  private static String step(StepMark mark) {
    return switch (mark) {
      case STARTED -> "step begun";
      case DONE -> "step done";
      case SKIPPED -> "step left out on purpose";
      case REDONE -> "step done once more";
    };
  }

  private String measured(Measured measured) {
    Level level = measured.level();
    String mark = measured.mark() == null ? "the mark" : plan.label(measured.mark());
    return line(
        orUnsaid(measured.subject(), "")
            + (measured.subject() == null ? "" : " ")
            + measure(measured.measure()),
        measured.amount() == null ? "" : amount(measured.amount()),
        level == null ? "" : level(level) + " " + mark,
        warmth(measured.warmth()),
        labelled("by", measured.instrument()));
  }

  private static String level(Level level) {
    return switch (level) {
      case BELOW -> "below";
      case AT -> "at";
      case ABOVE -> "above";
    };
  }

  static String measure(Measure measure) {
    return switch (measure) {
      case TEMPERATURE -> "temperature";
      case LEVEL -> "level";
      case PRESSURE -> "pressure";
      case GAP -> "gap";
      case THICKNESS -> "thickness";
      case VOLTAGE -> "voltage";
      case CURRENT -> "current";
      case RESISTANCE -> "resistance";
      case SPEED -> "engine speed";
      case HOURS -> "hour meter";
      case DISTANCE -> "distance driven";
      case STRENGTH -> "mixture strength";
    };
  }

  private static String condition(PartCondition condition) {
    return switch (condition) {
      case NEW -> "new one fitted";
      case OLD -> "old one put back";
      case CARRIED_OVER -> "moved over from the old part";
    };
  }

  /** A state of the machine, in words. */
  public static String state(MachineState state) {
    return switch (state) {
      case COLD -> "engine cold";
      case HOT -> "engine hot";
      case BATTERY_OFF -> "battery earth lead off";
      case BATTERY_ON -> "battery earth lead on";
      case ON_STANDS -> "on stands";
      case ON_WHEELS -> "down on its wheels";
      case CHOCKED -> "wheels chocked";
      case KEY_OUT -> "key out";
      case IMPLEMENT_DOWN -> "implement down";
      case PRESSURE_OFF -> "pressure let off";
      case CAP_OPEN -> "cap opened";
      case CAP_CLOSED -> "cap closed";
      case GUARDS_ON -> "guards on";
      case GUARDS_OFF -> "guards off";
      case TURNED_BY_HAND -> "turned over by hand, runs free";
      case RUNNING -> "engine running";
      case STOPPED -> "engine stopped";
      case HEATER_ON -> "heater on full";
      case LEAK -> "a leak was seen";
      case NO_LEAK -> "looked for leaks, none seen";
      case LAMPS_OUT -> "warning lamps out";
      case TOOLS_OUT -> "tools, pins and rags out";
      case BLED -> "bled, no more bubbles";
      case EYES_COVERED -> "eye protection on";
      case VENTILATED -> "doors open or extraction on";
    };
  }

  /** What was wrong, in words. */
  public static String trouble(tallyback.model.Statement.Trouble trouble) {
    return switch (trouble) {
      case BROKEN -> "broken";
      case CRACKED -> "cracked";
      case WORN -> "worn";
      case STRIPPED -> "thread stripped";
      case SEIZED -> "seized";
      case CORRODED -> "corroded";
      case DAMAGED -> "damaged";
      case LEAKING -> "leaking";
      case UNSPECIFIED -> "something wrong, not said what";
    };
  }

  private static String answer(Answer answer) {
    Boolean yes = answer.yes();
    Amount value = answer.value();
    Unit unit = answer.unit();
    if (yes != null) {
      return yes ? "yes" : "no";
    }
    return value != null ? amount(value) : unit != null ? unit.symbol() : "";
  }

  private static String amount(Amount amount) {
    return amount.unitUnsaid() ? amount + " (unit not said)" : amount.toString();
  }

  private static String counted(@Nullable Integer count, String what) {
    return count == null ? what : count + " " + what;
  }

  private String labelled(String preposition, @Nullable String id) {
    return id == null ? "" : preposition + " " + plan.label(id);
  }

  private String orUnsaid(@Nullable String id, String unsaid) {
    return id == null ? unsaid : plan.label(id);
  }

  private static String line(String subject, String... details) {
    List<String> said = new ArrayList<>();
    for (String detail : details) {
      if (!detail.isEmpty()) {
        said.add(detail);
      }
    }
    return said.isEmpty() ? subject : subject + ": " + String.join(", ", said);
  }
}

package tallyback.app;

import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;
import tallyback.log.Draft;
import tallyback.log.JobLog;
import tallyback.log.SoundClip;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.HowHeard;
import tallyback.model.HowHeard.Asked;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Unit;

/**
 * A job of many entries on an invented machine, with every kind of entry and of doubt, a place that
 * is named like a piece of a page, and a sound with some of them. Made up from a seed.
 */
public final class LongJob {

  /** Its id. */
  public static final String JOB = "long job";

  /** What a place is named. */
  public static final String HOSTILE = "<script>alert(1)</script>\u2028\u202Eflank";

  private static final ZoneId ZONE = ZoneId.of("Europe/Oslo");
  private static final Instant BEGUN = Instant.parse("2026-03-28T07:00:00Z");

  private static final String PLAN =
      """
      tallyback-plan: 1
      name: Slurry pump overhauled
      machine:
        name: Hollowmere 18 slurry tanker
        sides: left and right as seen from behind
      people:
        - say: [berta]
      fluids:
        - id: oil
          say: [gear oil]
          grade: gear oil, manual p. 4
      systems:
        - id: gearbox
          say: [gearbox]
          fluid: oil
          capacity: 40 L
          before: 40 L
          drains:
            - id: sump-plug
              say: [sump plug]
          fills:
            - id: fill-hole
              say: [fill hole]
      places:
        - say: [rear frame]
      items:
        - id: cover-bolts
          say: [cover bolts]
          thing: bolt
          count: 90
          torque: {value: 40 N·m, tolerance: ±4 N·m, tolerance-from: manual p. 12}
        - id: flange-nuts
          say: [flange nuts]
          thing: nut
          count: 60
      steps:
        - id: open-up
          say: [open up]
        - id: renew-seals
          say: [renew seals]
        - id: close-up
          say: [close up]
      """;

  private final JobLog log;
  private final Random random = new Random(20260328);
  private final int spacingSeconds;
  private Instant now = BEGUN;
  private int number;
  private @Nullable HowHeard heard;

  private LongJob(JobLog log, int spacingSeconds) {
    this.log = log;
    this.spacingSeconds = spacingSeconds;
  }

  /**
   * Writes it.
   *
   * @param data a file that is not there yet
   * @param entries how many, at least 40
   */
  public static void write(Path data, int entries) {
    try (JobLog log = SqliteLogs.openForWriting(data)) {
      new LongJob(log, Math.max(10, 20 * 3600 / entries)).tell(entries);
    }
  }

  /** The sound of an entry: a tone that swells, so that its picture is no straight line. */
  public static byte[] sound(int number) {
    short[] samples = new short[Clip.SAMPLE_RATE_HZ * 2];
    for (int i = 0; i < samples.length; i++) {
      samples[i] =
          (short) (9000.0 * i / samples.length * Math.sin(i * (0.05 + number % 7 * 0.01) + number));
    }
    return WavWriter.toBytes(new Clip(samples, 0));
  }

  private void tell(int entries) {
    LoadedPlan plan = LoadedPlan.of("plan.yaml", PLAN);
    Entry opening =
        log.openJob(
            draft(
                "job opened",
                Source.TOOL,
                Certainty.CONFIRMED,
                new Statement.JobOpened(
                    plan.plan().name(), plan.plan().hash(), plan.plan().text())));
    number = (int) opening.seq();
    say("berta speaking", new Statement.SpeakerIs("berta"));
    say("starting open up", new Statement.StepMarked("open-up", StepMark.STARTED));
    Entry wrong = say("five cover bolts off", off("cover-bolts", 5));
    say("six not five", new Statement.Corrected(wrong.id(), off("cover-bolts", 6)));
    Entry gone = say("nine flange nuts off", off("flange-nuts", 9));
    say("scratch that", new Statement.Undone(gone.id()));
    heard = HowHeard.of("", List.of(), List.of(new Asked("40 what?", null)));
    unsure("torqued the cover bolts to forty", torqued(4, Unit.UNSAID));
    heard =
        new HowHeard(
            List.of("two flange nuts lost", "two flange nuts off"),
            List.of(
                new Asked("did you say two flange nuts lost?", "no"), new Asked(HOSTILE, "yes")));
    say("two flange nuts off", off("flange-nuts", 2));
    heard = null;
    say("", new Statement.NotUnderstood(7, Statement.Hindrance.NOISE));
    Entry late = say("hydraulics off", new Statement.StateSaid(MachineState.STOPPED, null));
    say("that was ten minutes ago", new Statement.Retimed(late.id(), now.minusSeconds(600)));
    say("a break", new Statement.Paused());
    now = now.plusSeconds(1200);
    say("carry on", new Statement.Resumed());
    say("look at this", new Statement.Memo(2, null, HOSTILE));
    say("<b>worn</b> & cracked", new Statement.ProblemSeen(Statement.Trouble.WORN, HOSTILE));
    say("open up done", new Statement.StepMarked("open-up", StepMark.DONE));
    say("renew seals", new Statement.StepMarked("renew-seals", StepMark.STARTED));
    while (number < entries - 4) {
      if (number == entries / 2) {
        say("that's it for today", new Statement.LeftForNight());
        // Over the night on which the clocks are put forward.
        now =
            Instant.parse("2026-03-29T06:00:00Z").isAfter(now)
                ? Instant.parse("2026-03-29T06:00:00Z")
                : now.plusSeconds(12 * 3600);
        say("carry on", new Statement.Resumed());
      } else {
        any();
      }
    }
    say("renew seals done", new Statement.StepMarked("renew-seals", StepMark.DONE));
    say("close up", new Statement.StepMarked("close-up", StepMark.STARTED));
    while (number < entries) {
      any();
    }
  }

  private void any() {
    int kind = random.nextInt(20);
    if (kind < 5) {
      say("two cover bolts off", off("cover-bolts", 1 + random.nextInt(2)));
    } else if (kind < 9) {
      say(
          "a cover bolt back on",
          new Statement.ItemsMoved(
              ItemMove.ON, "cover-bolts", Thing.BOLT, 1, false, null, "rear-frame", null));
    } else if (kind < 12) {
      say("drained", fluid(FluidMove.OUT, "0." + (1 + random.nextInt(3))));
    } else if (kind < 14) {
      say("filled", fluid(FluidMove.IN, "0." + (1 + random.nextInt(3))));
    } else if (kind < 17) {
      say("cover bolts to forty newton metres", torqued(1, Unit.NEWTON_METRE));
    } else if (kind < 18) {
      unsure("flange nuts off", off("flange-nuts", 1));
    } else {
      say(
          "temperature forty degrees",
          new Statement.Measured(
              Statement.Measure.TEMPERATURE,
              Amount.of(Integer.toString(20 + random.nextInt(60)), Unit.CELSIUS),
              null,
              null,
              "gearbox",
              null,
              null));
    }
  }

  private static Statement off(String item, int count) {
    return new Statement.ItemsMoved(ItemMove.OFF, item, Thing.BOLT, count, false, null, null, null);
  }

  private static Statement torqued(int count, Unit unit) {
    return new Statement.Tightened(
        TightnessState.TORQUED,
        "cover-bolts",
        null,
        Thing.BOLT,
        count,
        false,
        Amount.of("40", unit),
        null,
        null,
        null,
        null,
        null);
  }

  private static Statement fluid(FluidMove move, String litres) {
    return new Statement.FluidMoved(
        move, Amount.of(litres, Unit.LITRE), false, "oil", null, "gearbox", null, null, null, null);
  }

  private Entry say(String words, Statement statement) {
    return note(words, Certainty.CONFIRMED, statement);
  }

  private Entry unsure(String words, Statement statement) {
    return note(words, Certainty.UNCONFIRMED, statement);
  }

  private Entry note(String words, Certainty certainty, Statement statement) {
    now = now.plusSeconds(spacingSeconds / 2 + random.nextInt(spacingSeconds));
    @Nullable SoundClip clip = number < 60 ? new SoundClip(sound(number)) : null;
    Entry entry = log.append(draft(words, Source.SPOKEN, certainty, statement), clip);
    number = (int) entry.seq();
    return entry;
  }

  private Draft draft(String words, Source source, Certainty certainty, Statement statement) {
    return new Draft(
        "bench-" + number,
        JOB,
        now,
        now,
        ZONE,
        "berta",
        "bench",
        source,
        certainty,
        words,
        statement,
        heard);
  }

  /** Every kind of doubt that it holds. */
  public static List<String> doubts() {
    return List.of("unconfirmed", "not-understood", "corrected", "withdrawn", "retimed", "asked");
  }
}

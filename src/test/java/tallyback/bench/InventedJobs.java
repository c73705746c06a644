package tallyback.bench;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import tallyback.log.Draft;
import tallyback.log.SoundClip;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.About;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Unit;

/**
 * Many jobs of an invented shop: the demo plan on machines of several makers that don't exist, each
 * coming back every few months. The same seed gives the same jobs.
 */
public final class InventedJobs {

  /** Said in three jobs and nowhere else. */
  public static final String RARE = "brindlewick";

  private static final String[] MAKERS = {
    "Quarrowby Treeline 24, compact diesel orchard tractor",
    "Haverstock Loam 40, row tractor",
    "Pellmere Rook, mini loader",
    "Ostrander Fen 3, ditch mower"
  };
  private static final String[] PLANS = {
    "Coolant pump, belt, thermostat and hoses renewed",
    "Cooling system looked after",
    "Belt and hoses after the harvest"
  };
  private static final String[] OWNERS = {
    "Wendel Aldous", "Marit Oakhanger", "the Thornby orchard", "Ines Calloway", "Piet Varnholt"
  };
  private static final String[] SYLLABLES = {
    "bra", "del", "fen", "gor", "hal", "jin", "kel", "lom", "mar", "nop", "pel", "quo", "rin",
    "sta", "tor", "vel", "wim", "zan"
  };
  private static final String[] TALK = {
    "looks", "worn", "a", "little", "on", "the", "left", "side", "cleaned", "it", "with", "rag",
    "thread", "good", "new", "one", "next", "time", "seal", "weeps", "dry", "again", "tight"
  };
  private static final Instant FIRST = Instant.parse("2019-01-07T08:00:00Z");

  private final String plan;
  private final int machines;
  private final int jobs;
  private final int entries;

  /**
   * A shop.
   *
   * @param jobs how many jobs
   * @param machines on how many machines
   * @param entries of how many entries each, its opening and closing among them
   */
  public InventedJobs(int jobs, int machines, int entries) throws IOException {
    this.plan = Files.readString(Path.of("demo-data/plan.yaml"), StandardCharsets.UTF_8);
    this.jobs = jobs;
    this.machines = machines;
    this.entries = entries;
  }

  /** All jobs, the oldest first. */
  public Iterator<List<Draft>> all() {
    return IntStream.range(0, jobs).mapToObj(this::job).iterator();
  }

  /** Name of the machine with this number. */
  public static String machine(int number) {
    return MAKERS[number % MAKERS.length];
  }

  /** Serial number of that machine. */
  public static String serial(int number) {
    return "SN-" + (1000 + number);
  }

  /** Id of the job with this number. */
  public static String id(int number) {
    return "job-" + (number + 1);
  }

  /** The plan's text for a machine. */
  public String plan(int machine, String name) {
    return plan.replace("Quarrowby Treeline 24, compact diesel orchard tractor", machine(machine))
        .replace("QT24-000317", serial(machine))
        .replaceFirst("name: Coolant pump[^\n]*", "name: " + name);
  }

  /** The entries of one job. */
  public List<Draft> job(int number) {
    int machine = number % machines;
    String name = PLANS[machine % PLANS.length];
    return new Telling(number, machine, new Random(number), entries)
        .told(plan(machine, name), name);
  }

  /** One job being told. */
  private static final class Telling {
    private final int number;
    private final int machine;
    private final Random random;
    private final int most;
    private final List<Draft> told = new ArrayList<>();
    private Instant now;

    Telling(int number, int machine, Random random, int most) {
      this.number = number;
      this.machine = machine;
      this.random = random;
      this.most = most;
      this.now = FIRST.plus(Duration.ofHours(13L * number));
    }

    List<Draft> told(String text, String name) {
      say(
          "job opened",
          new Statement.JobOpened(
              name, SoundClip.hashOf(text.getBytes(StandardCharsets.UTF_8)), text));
      say("owner: " + OWNERS[machine % OWNERS.length], owner(OWNERS[machine % OWNERS.length]));
      say("complaint: loses coolant", new Statement.Written(About.COMPLAINT, "loses coolant"));
      BigDecimal hours = BigDecimal.valueOf(400L + 7L * machine + 90L * (number / 10 / 25));
      say(
          "hour meter " + hours + " hours",
          measured(Measure.HOURS, new Amount(hours, Unit.HOUR), null, null));
      step("make-safe", "make safe");
      off("hood-bolts", "hood bolts", 4);
      off("splash-guard-bolts", "splash guard bolts", 6);
      off("belly-pan-bolts", "belly pan bolts", 5);
      step("strip-covers", "strip covers");
      double out = 5.1 + random.nextGaussian() * 0.12;
      drain("radiator-drain", "radiator drain", out * 0.58);
      drain("block-drain", "block plug", out * 0.42);
      step("drain", "drain coolant");
      off("top-clamps", "top clamps", 2);
      off("tank-straps", "tank straps", 4);
      step("strip-hoses", "strip hoses");
      off("fan-nuts", "fan nuts", 4);
      step("strip-belt", "strip belt");
      off("pump-bolts", "pump bolts", 6);
      off("outlet-nuts", "outlet nuts", 2);
      step("strip-pump", "strip pump");
      step("clean-faces", "clean faces");
      say("new outlet gasket", new Statement.PartFitted("outlet-gasket", PartCondition.NEW));
      say("new coolant pump", new Statement.PartFitted("coolant-pump", PartCondition.NEW));
      if (number % 2 == 0) {
        say("new drive belt", new Statement.PartFitted("drive-belt", PartCondition.NEW));
      }
      on("pump-bolts", "pump bolts", 6);
      torque("pump-bolts", "pump bolts", 6, 24, "small-wrench");
      on("outlet-nuts", "outlet nuts", 2);
      torque("outlet-nuts", "outlet nuts", 2, 19, "small-wrench");
      step("fit-pump", "fit pump");
      on("fan-nuts", "fan nuts", 4);
      torque("fan-nuts", "fan nuts", 4, 22, "small-wrench");
      step("fit-belt", "fit belt");
      say(
          "belt gap nine millimetres",
          measured(
              Measure.GAP,
              amount(9 + random.nextGaussian() * 0.3, 1, Unit.MILLIMETRE),
              "drive-belt",
              null));
      step("belt-tension", "belt tension");
      on("tank-straps", "tank straps", 4);
      torque("tank-straps", "tank straps", 4, 20, "small-wrench");
      on("top-clamps", "top clamps", 2);
      step("fit-hoses", "fit hoses");
      int before = number / machines(number);
      double lost = 0.02 * before;
      fill(out - lost + random.nextGaussian() * 0.05);
      step("first-fill", "first fill");
      say(
          "strength minus thirty seven",
          measured(
              Measure.STRENGTH,
              amount(-37 + random.nextGaussian(), 0, Unit.CELSIUS),
              "cooling",
              "refractometer"));
      say(
          "held one hundred kilopascals",
          measured(
              Measure.PRESSURE,
              amount(100 + random.nextGaussian() * 4, 0, Unit.KILOPASCAL),
              "cooling",
              "pressure-tester"));
      step("pressure-test", "pressure test");
      on("splash-guard-bolts", "splash guard bolts", number % 7 == 0 ? 5 : 6);
      torque(
          "splash-guard-bolts", "splash guard bolts", number % 7 == 0 ? 5 : 6, 9, "small-wrench");
      on("belly-pan-bolts", "belly pan bolts", 5);
      on("hood-bolts", "hood bolts", 4);
      step("fit-guards", "fit guards");
      say("at the cold mark", level());
      step("final-check", "final check");
      boolean stays = number % 97 == 0;
      while (told.size() < most - (stays ? 0 : 1)) {
        memo();
      }
      if (!stays) {
        say("job closed", new Statement.JobClosed());
      }
      return told;
    }

    private static int machines(int number) {
      return number < 40 ? 4 : 250;
    }

    private static Statement owner(String name) {
      return new Statement.Written(About.OWNER, name);
    }

    private void step(String id, String words) {
      say("started " + words, new Statement.StepMarked(id, StepMark.STARTED));
      now = now.plusSeconds(300 + random.nextInt(900));
      say(words + " done", new Statement.StepMarked(id, StepMark.DONE));
    }

    private void off(String item, String words, int count) {
      say(
          count + " " + words + " off",
          new ItemsMoved(ItemMove.OFF, item, null, count, false, null, null, null));
    }

    private void on(String item, String words, int count) {
      say(
          count + " " + words + " on",
          new ItemsMoved(ItemMove.ON, item, null, count, false, null, null, null));
    }

    private void drain(String place, String words, double litres) {
      Amount amount = amount(litres, 2, Unit.LITRE);
      say(
          "drained " + amount.value() + " litres from the " + words,
          new FluidMoved(
              FluidMove.OUT,
              amount,
              false,
              "coolant",
              null,
              "cooling",
              place,
              "big-jug",
              null,
              null));
    }

    private void fill(double litres) {
      Amount amount = amount(litres, 2, Unit.LITRE);
      say(
          "filled " + amount.value() + " litres of coolant",
          new FluidMoved(
              FluidMove.IN,
              amount,
              false,
              "coolant",
              null,
              "cooling",
              "filler-neck",
              "big-jug",
              null,
              null));
    }

    private void torque(String item, String words, int count, double value, String wrench) {
      Amount amount = amount(value + (random.nextInt(30) == 0 ? 4 : 0), 0, Unit.NEWTON_METRE);
      say(
          "torqued the " + words + " to " + amount.value() + " newton metres",
          new Statement.Tightened(
              TightnessState.TORQUED,
              item,
              null,
              null,
              count,
              false,
              amount,
              null,
              null,
              wrench,
              null,
              null));
    }

    private static Statement level() {
      return new Measured(Measure.LEVEL, null, Level.AT, "cold-mark", "cooling", null, null);
    }

    private static Statement measured(
        Measure measure, Amount amount, @Nullable String subject, @Nullable String instrument) {
      return new Measured(measure, amount, null, null, subject, null, instrument);
    }

    private static Amount amount(double value, int decimals, Unit unit) {
      return new Amount(BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP), unit);
    }

    private void memo() {
      StringBuilder words = new StringBuilder("memo");
      int many = 4 + random.nextInt(5);
      for (int index = 0; index < many; index++) {
        words.append(' ').append(random.nextInt(3) == 0 ? invented() : talk());
      }
      if ((number == 20 || number == 2_000 || number == 4_000) && told.size() == most - 5) {
        words.append(' ').append(RARE);
      }
      say(words.toString(), new Statement.Memo(null, words.substring(5)));
    }

    private String talk() {
      return TALK[random.nextInt(TALK.length)];
    }

    private String invented() {
      StringBuilder word = new StringBuilder();
      int many = 2 + random.nextInt(2);
      for (int index = 0; index < many; index++) {
        word.append(SYLLABLES[random.nextInt(SYLLABLES.length)]);
      }
      return word.toString();
    }

    private void say(String words, Statement statement) {
      now = now.plusSeconds(20 + random.nextInt(60));
      told.add(
          new Draft(
              id(number) + "-" + told.size(),
              id(number),
              now,
              now,
              ZoneOffset.UTC,
              "anna",
              "page",
              Source.SPOKEN,
              Certainty.CONFIRMED,
              words,
              statement));
    }
  }
}

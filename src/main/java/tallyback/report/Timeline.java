package tallyback.report;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement;
import tallyback.model.Weight;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.StepStatus;

/**
 * The picture of a job over time, ready to draw: steps as bars, entries as ticks in one lane per
 * kind, findings as numbered flags at the times of their evidence. Places across are percent of the
 * width and places down are pixels, so that the picture fits any screen while its letters keep
 * their size.
 */
record Timeline(
    int heightPixels,
    List<Mark> marks,
    List<Fold> folds,
    List<Bar> bars,
    List<Label> lanes,
    List<Tick> ticks,
    List<Flag> flags) {

  private static final int HEAD_PIXELS = 24;

  /**
   * What a Letter page, the shorter of the two, has for the picture beside its heading and legend.
   */
  private static final int PRINTED_PIXELS = 780;

  /** Below this the letters can't be read in print; a longer picture goes on over the next page. */
  private static final int LEAST_PERCENT = 60;

  private static final int STEP_PIXELS = 35;
  private static final int LANE_PIXELS = 42;
  private static final int FLAG_PIXELS = 24;

  /** How small the picture is printed so that it stands on one page, in percent of its height. */
  int printedPercent() {
    return Math.max(LEAST_PERCENT, Math.min(100, 100 * PRINTED_PIXELS / heightPixels));
  }

  /** Two flags nearer than this would overlap on a screen 360 pixels wide. */
  private static final double FLAG_PERCENT = 7.5;

  /**
   * About how wide a letter is on such a screen; a label is moved so far from its bar that it stays
   * inside.
   */
  private static final double LETTER_PERCENT = 2.1;

  /** A round time. */
  record Mark(String x, String anchor, String label) {}

  /** A stretch without entries, drawn narrow. */
  record Fold(String x, String width) {}

  /** A line of text with its anchor. */
  record Label(String x, String anchor, int y, String text) {}

  /** A step: its label, and its bar when it has times. */
  record Bar(Label label, String x, String width, int y, String style) {}

  /** An entry; where it leads to, empty for nowhere. */
  record Tick(String x, int y, String style, String title, String link) {}

  /** The number of a finding, at the time of one entry of its evidence. */
  record Flag(String x, int y, int stemTop, String style, String number, String title) {}

  /** The lanes, from top to bottom. */
  enum Lane {
    FLUIDS("Fluids"),
    ITEMS("Things off and on"),
    TIGHTENING("Tightening"),
    CHECKS("Readings and states"),
    PICTURES("Pictures"),
    OTHER("Everything else said");

    private final String label;

    Lane(String label) {
      this.label = label;
    }

    static Lane of(Statement statement) {
      if (statement instanceof Statement.FluidMoved) {
        return FLUIDS;
      } else if (statement instanceof Statement.ItemsMoved
          || statement instanceof Statement.TemporaryMoved
          || statement instanceof Statement.PartFitted) {
        return ITEMS;
      } else if (statement instanceof Statement.Tightened) {
        return TIGHTENING;
      } else if (statement instanceof Statement.Measured
          || statement instanceof Statement.StateSaid
          || statement instanceof Statement.Aligned
          || statement instanceof Statement.SecondCheck) {
        return CHECKS;
      } else if (statement instanceof Statement.PictureTaken) {
        return PICTURES;
      }
      return OTHER;
    }
  }

  static Timeline of(JobRecord job, Trail trail, StatementText text, ShopTime time) {
    return new Drawing(job, trail, text, time).draw();
  }

  private static String percent(double value) {
    return String.format(Locale.ROOT, "%.2f%%", value);
  }

  /** One drawing in the making; used by one thread and thrown away. */
  private static final class Drawing {

    private final JobRecord job;
    private final Trail trail;
    private final StatementText text;
    private final ShopTime time;
    private final ZoneId zone;
    private final TimeScale scale;
    private final Set<String> evidence = new HashSet<>();

    Drawing(JobRecord job, Trail trail, StatementText text, ShopTime time) {
      this.job = job;
      this.trail = trail;
      this.text = text;
      this.time = time;
      this.zone = job.heading().zone();
      this.scale = TimeScale.over(times(), zone);
      job.outcome().findings().forEach(this::gather);
    }

    private void gather(Finding finding) {
      evidence.addAll(finding.entries());
      finding.followers().forEach(this::gather);
    }

    private List<Instant> times() {
      List<Instant> times = new ArrayList<>();
      times.add(job.heading().openedAt());
      job.entries().forEach(entry -> times.add(trail.happenedAt(entry)));
      for (StepLine step : job.outcome().steps()) {
        Instant started = step.startedAt();
        Instant done = step.doneAt();
        if (started != null) {
          times.add(started);
        }
        if (done != null) {
          times.add(done);
        }
      }
      return times;
    }

    Timeline draw() {
      List<Bar> bars = new ArrayList<>();
      int y = HEAD_PIXELS;
      int number = 0;
      for (StepLine step : job.outcome().steps()) {
        bars.add(bar(step, ++number, y));
        y += STEP_PIXELS;
      }
      List<Label> lanes = new ArrayList<>();
      Map<Lane, Integer> tops = new TreeMap<>();
      boolean anyPicture =
          job.entries().stream()
              .anyMatch(entry -> entry.statement() instanceof Statement.PictureTaken);
      for (Lane lane : Lane.values()) {
        if (lane == Lane.PICTURES && !anyPicture) {
          continue;
        }
        lanes.add(new Label("0", "start", y + 13, lane.label));
        tops.put(lane, y + 18);
        y += LANE_PIXELS;
      }
      Map<String, Integer> tickTops = new HashMap<>();
      List<Tick> ticks = new ArrayList<>();
      for (Entry entry : job.entries()) {
        int top = tops.getOrDefault(Lane.of(entry.said()), y);
        tickTops.put(entry.id(), top);
        ticks.add(tick(entry, top));
      }
      int flagsTop = y + 18;
      lanes.add(new Label("0", "start", y + 13, "Findings, at the times of what was said"));
      List<Flag> flags = flags(flagsTop, tickTops);
      int height =
          flags.stream()
              .mapToInt(flag -> flag.y() + FLAG_PIXELS)
              .max()
              .orElse(flagsTop + FLAG_PIXELS);
      return new Timeline(height, marks(), folds(), bars, lanes, ticks, flags);
    }

    private List<Mark> marks() {
      return scale.marks().stream()
          .map(
              mark ->
                  new Mark(
                      percent(mark.percent()),
                      mark.percent() < 5 ? "start" : mark.percent() > 95 ? "end" : "middle",
                      mark.label()))
          .toList();
    }

    private List<Fold> folds() {
      return scale.folds().stream()
          .map(
              fold ->
                  new Fold(
                      percent(fold.fromPercent()), percent(fold.toPercent() - fold.fromPercent())))
          .toList();
    }

    private Bar bar(StepLine step, int number, int top) {
      Instant started = step.startedAt();
      Instant done = step.doneAt();
      String name = number + "  " + step.label();
      Instant first = started == null ? done : started;
      if (first == null) {
        return new Bar(
            new Label("0", "start", top + 13, name + ": " + Wording.step(step.status())),
            "0",
            "0",
            top,
            "none");
      }
      double from = scale.percent(first);
      double to = scale.percent(done == null ? scale.end() : done);
      boolean open = step.status() != StepStatus.DONE;
      String words = open ? name + ": " + Wording.step(step.status()) : name;
      double width = words.codePointCount(0, words.length()) * LETTER_PERCENT;
      Label label =
          (from + to) / 2 < 50
              ? new Label(
                  percent(Math.max(0, Math.min(from, 100 - width))), "start", top + 13, words)
              : new Label(percent(Math.min(100, Math.max(to, width))), "end", top + 13, words);
      return new Bar(
          label,
          percent(from),
          percent(Math.max(0.6, to - from)),
          top + 18,
          open ? "open" : "done");
    }

    private Tick tick(Entry entry, int top) {
      String style =
          trail.struck(entry)
              ? "struck"
              : !entry.confirmed()
                  ? "unsure"
                  : evidence.contains(entry.id()) ? "evidence" : "plain";
      return new Tick(
          percent(scale.percent(trail.happenedAt(entry))),
          top,
          style,
          "no. "
              + entry.seq()
              + ", "
              + time.at(trail.happenedAt(entry), entry.zone())
              + ", "
              + text.of(entry),
          job.pictures().containsKey(entry.id()) && !trail.struck(entry)
              ? "#picture-" + entry.seq()
              : "");
    }

    private List<Flag> flags(int top, Map<String, Integer> tickTops) {
      List<Flag> flags = new ArrayList<>();
      List<Double> rowEnds = new ArrayList<>();
      record Pin(double percent, int number, Finding finding, Entry entry) {}
      List<Pin> pins = new ArrayList<>();
      for (int index = 0; index < job.outcome().findings().size(); index++) {
        Finding finding = job.outcome().findings().get(index);
        for (String id : finding.entries()) {
          int number = index + 1;
          trail
              .entry(id)
              .ifPresent(
                  entry ->
                      pins.add(
                          new Pin(scale.percent(trail.happenedAt(entry)), number, finding, entry)));
        }
      }
      pins.sort(java.util.Comparator.comparingDouble(Pin::percent).thenComparingInt(Pin::number));
      for (Pin pin : pins) {
        int row = 0;
        while (row < rowEnds.size() && pin.percent() - rowEnds.get(row) < FLAG_PERCENT) {
          row++;
        }
        if (row == rowEnds.size()) {
          rowEnds.add(pin.percent());
        } else {
          rowEnds.set(row, pin.percent());
        }
        flags.add(
            new Flag(
                percent(pin.percent()),
                top + row * FLAG_PIXELS,
                tickTops.getOrDefault(pin.entry().id(), top),
                style(pin.finding().weight()),
                Integer.toString(pin.number()),
                Wording.weight(pin.finding().weight())
                    + " "
                    + pin.number()
                    + ": "
                    + pin.finding().subject()));
      }
      return flags;
    }

    private static String style(Weight weight) {
      return weight.name().toLowerCase(Locale.ROOT);
    }
  }
}

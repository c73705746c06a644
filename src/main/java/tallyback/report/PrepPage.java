package tallyback.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.phrase.CardSection;
import tallyback.plan.Plan;
import tallyback.plan.Plan.ThreadState;
import tallyback.planning.PrepSheet;

/**
 * A {@link PrepSheet} as finished texts, for a page and for a terminal: boxes with lines to be
 * ticked off. English only.
 *
 * @param style the style sheet of the page
 * @param title what it is
 * @param machine the machine
 * @param job the plan's name
 * @param head facts above the boxes
 * @param boxes what to lay out
 * @param cautions what to mind
 * @param card the phrase card; empty in the middle of a job
 * @param deferral what the sheet is not
 */
record PrepPage(
    String style,
    String title,
    String machine,
    String job,
    List<Fact> head,
    List<Box> boxes,
    List<String> cautions,
    List<CardSection> card,
    String deferral) {

  private static final String DEFERRAL =
      "Figures are those of the plan. Where the maker's manual says otherwise, the manual is right;"
          + " what it says of torques, limits and fluids is not replaced by this sheet.";

  /** Copies its lists. */
  PrepPage {
    head = List.copyOf(head);
    boxes = List.copyOf(boxes);
    cautions = List.copyOf(cautions);
    card = List.copyOf(card);
  }

  /** A fact of the head. */
  record Fact(String name, String value) {}

  /**
   * A box with a heading.
   *
   * @param heading what is in it
   * @param lines what to tick off
   * @param note below them, or empty
   */
  record Box(String heading, List<Line> lines, String note) {

    /** Copies its list. */
    Box {
      lines = List.copyOf(lines);
    }
  }

  /**
   * A line.
   *
   * @param what in bold
   * @param how the rest
   * @param tick whether it is something to lay out
   */
  record Line(String what, String how, boolean tick) {}

  /**
   * The page.
   *
   * @param plan the plan
   * @param sheet what it needs
   * @param card its phrase card
   * @param underWay the job that it is for, or null before one
   */
  static PrepPage of(
      Plan plan, PrepSheet sheet, List<CardSection> card, @Nullable String underWay, String style) {
    List<Fact> head = new ArrayList<>();
    head.add(new Fact("Sides", sheet.sides()));
    head.add(new Fact("Time", time(sheet.time())));
    if (underWay != null) {
      head.add(new Fact("Job", underWay));
    }
    List<Box> boxes = new ArrayList<>();
    boxes.add(parts(sheet, underWay != null));
    boxes.add(fluids(sheet, underWay != null));
    if (underWay == null) {
      boxes.add(tools(sheet));
      boxes.add(catches(sheet));
    }
    boxes.add(wrenches(sheet));
    threads(sheet).ifPresent(boxes::add);
    temporary(sheet).ifPresent(boxes::add);
    return new PrepPage(
        style,
        underWay == null ? "Lay out before the job" : "Still needed for the job",
        plan.machine().name(),
        plan.name(),
        head,
        boxes,
        sheet.cautions(),
        underWay == null ? card : List.of(),
        DEFERRAL);
  }

  private static String time(PrepSheet.Time time) {
    List<String> parts = new ArrayList<>();
    if (time.minutes() > 0) {
      parts.add("about " + hours(time.minutes()) + " by the plan");
    }
    if (time.stepsWithout() > 0) {
      parts.add(time.stepsWithout() + " steps without a time in the plan");
    }
    List<Integer> past = time.past();
    if (past.size() == 1) {
      parts.add(hours(past.get(0)) + " in the one job done by it so far");
    } else if (!past.isEmpty()) {
      parts.add(
          hours(past.get(0))
              + " to "
              + hours(past.get(past.size() - 1))
              + " in "
              + past.size()
              + " jobs done by it, the middle one "
              + hours(past.get(past.size() / 2)));
    } else {
      parts.add("no job done by it yet, so nobody knows the range");
    }
    return String.join("; ", parts);
  }

  private static String hours(int minutes) {
    return minutes < 60
        ? minutes + " min"
        : minutes % 60 == 0
            ? minutes / 60 + " h"
            : minutes / 60 + " h " + String.format(Locale.ROOT, "%02d", minutes % 60) + " min";
  }

  private static String counted(PrepSheet.Use use) {
    return use.count() == 1 ? use.item() : use.count() + " " + use.item();
  }

  private static String placed(PrepSheet.Use use) {
    return counted(use) + (use.at().isEmpty() ? "" : " (" + use.at() + ")");
  }

  private static String all(List<PrepSheet.Use> uses) {
    return uses.stream().map(PrepPage::placed).collect(Collectors.joining(", "));
  }

  private static Box parts(PrepSheet sheet, boolean underWay) {
    List<Line> lines =
        sheet.parts().stream()
            .map(
                part ->
                    new Line(
                        counted(part.use()),
                        joined(
                            part.use().at().isEmpty() ? "" : "for the " + part.use().at(),
                            part.what(),
                            switch (part.why()) {
                              case RENEWED -> "";
                              case STRETCH -> "stretch bolt: new if the manual says so";
                              case GONE -> "broken, thrown away, or not there any more";
                            }),
                        true))
            .toList();
    return new Box(
        underWay ? "Parts still to get" : "New parts",
        lines,
        lines.isEmpty() ? "None by the plan." : "");
  }

  private static String joined(String... parts) {
    return java.util.Arrays.stream(parts)
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining(", "));
  }

  private static Box fluids(PrepSheet sheet, boolean underWay) {
    List<Line> lines = new ArrayList<>();
    for (PrepSheet.FluidNeed need : sheet.fluids()) {
      String amount = need.litres().map(Amount::toString).orElse("as much as the manual says");
      lines.add(
          new Line(
              amount + " of " + need.fluid(),
              joined("for the " + need.system(), need.grade(), stays(need, underWay)),
              true));
      need.mix().ifPresent(mix -> lines.add(new Line("", mix(mix), false)));
    }
    return new Box(
        underWay ? "Fluids still to pour" : "Fluids",
        lines,
        lines.isEmpty() ? "None by the plan." : underWay ? "" : "Some more for what is spilled.");
  }

  private static String stays(PrepSheet.FluidNeed need, boolean underWay) {
    if (need.stays().isEmpty()) {
      return "how much stays inside is not in the plan";
    }
    if (underWay) {
      return need.stays().get() + " inside by what was said";
    }
    String stays = need.stays().get() + " of the old stays inside";
    return need.rounds() > 1
        ? stays + ", so drain and fill " + need.rounds() + " times"
        : need.rounds() == 0 ? stays + ", more than the plan allows however often" : stays;
  }

  private static String mix(PrepSheet.Mix mix) {
    String strong =
        mix.concentrateIfStrong()
            + " of concentrate and "
            + mix.waterIfStrong()
            + " of water if what stays inside protects to "
            + mix.protectsTo()
            + " as well";
    String water =
        mix.concentrateIfWater().isPresent() && mix.waterIfWater().isPresent()
            ? mix.concentrateIfWater().get()
                + " and "
                + mix.waterIfWater().get()
                + " if it is water"
            : "if it is water, more must come out first";
    return "For " + mix.protectsTo() + ": " + strong + "; " + water + ". Measure it before.";
  }

  private static Box tools(PrepSheet sheet) {
    List<Line> lines =
        sheet.tools().stream()
            .map(
                tool -> {
                  Amount size = tool.size();
                  String what =
                      size == null
                          ? "Size not in the plan"
                          : size + (tool.drive().isEmpty() ? "" : " " + tool.drive());
                  return new Line(what, all(tool.uses()), size != null);
                })
            .toList();
    return new Box(
        "Sockets and wrenches", lines, lines.isEmpty() ? "The plan names no fasteners." : "");
  }

  private static Box catches(PrepSheet sheet) {
    List<Line> lines = new ArrayList<>();
    for (PrepSheet.Catch each : sheet.catches()) {
      String points =
          each.points().stream()
              .map(
                  point ->
                      point.point()
                          + " "
                          + (point.share() == null ? "(not in the plan)" : point.share()))
              .collect(Collectors.joining(", "));
      lines.add(
          new Line(
              each.sum()
                  .map(sum -> "Room for " + sum)
                  .orElse("Room for all of the " + each.system()),
              each.system() + ": " + points,
              true));
    }
    return new Box(
        "Pans and jugs",
        lines,
        lines.isEmpty()
            ? "Nothing is drained by the plan."
            : "Closed cans for the old fluid, which goes where local rules say.");
  }

  private static Box wrenches(PrepSheet sheet) {
    List<Line> lines = new ArrayList<>();
    for (PrepSheet.Wrench wrench : sheet.wrenches()) {
      lines.add(
          new Line(
              wrench.name() + ", " + wrench.from() + " to " + wrench.to(),
              wrench.tightenings().isEmpty()
                  ? "not needed"
                  : wrench.tightenings().stream()
                      .map(PrepPage::tightening)
                      .collect(Collectors.joining(", ")),
              !wrench.tightenings().isEmpty()));
      if (!wrench.calibrated().isEmpty() && !wrench.tightenings().isEmpty()) {
        lines.add(new Line("", "calibrated " + wrench.calibrated(), false));
      }
    }
    if (!sheet.noWrench().isEmpty()) {
      lines.add(
          new Line(
              sheet.wrenches().isEmpty() ? "A torque wrench" : "One more torque wrench",
              sheet.noWrench().stream().map(PrepPage::tightening).collect(Collectors.joining(", ")),
              true));
    }
    if (!sheet.angle().isEmpty()) {
      lines.add(new Line("Angle gauge", all(sheet.angle()), true));
    }
    if (!sheet.torqueFromManual().isEmpty()) {
      lines.add(new Line("Torque from your manual", all(sheet.torqueFromManual()), false));
    }
    return new Box(
        "Torque wrenches",
        lines,
        lines.isEmpty()
            ? "The plan names no torque."
            : sheet.wrenches().isEmpty()
                ? ""
                : "Below a fifth of its highest value a wrench promises nothing (ISO 6789), so there"
                    + " another one is listed.");
  }

  private static String tightening(PrepSheet.Tightening each) {
    return counted(each.use()) + " " + each.torque();
  }

  private static Optional<Box> threads(PrepSheet sheet) {
    if (sheet.threads().isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Box(
            "On the threads",
            sheet.threads().stream()
                .map(
                    each ->
                        new Line(
                            onThreads(each.state()),
                            all(each.uses()),
                            each.state() != ThreadState.DRY))
                .toList(),
            ""));
  }

  private static String onThreads(ThreadState state) {
    return switch (state) {
      case DRY -> "Clean and dry";
      case OILED -> "Oil";
      case THREAD_LOCK -> "Thread-lock";
    };
  }

  private static Optional<Box> temporary(PrepSheet sheet) {
    if (sheet.temporary().isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Box(
            "In for the job, out again before the machine runs",
            sheet.temporary().stream().map(use -> new Line(counted(use), use.at(), true)).toList(),
            ""));
  }
}

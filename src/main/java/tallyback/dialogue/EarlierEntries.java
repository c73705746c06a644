package tallyback.dialogue;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.books.Standing;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Statement;
import tallyback.model.Statement.ChangeNamed;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.SpeakerIs;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.UndoNamed;
import tallyback.model.Statement.Undone;
import tallyback.phrase.ReadBackText;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Point;

/**
 * Finds the earlier entry that is put right by naming what it is about: the last one about it that
 * holds such a value and, where that was said, the number that is to go. Where two different things
 * fit, none is taken.
 */
final class EarlierEntries {

  private static final String COUNT = "count";
  private static final String SIZE = "size";

  private final Plan plan;
  private final ReadBackText readBack;

  EarlierEntries(Plan plan) {
    this.plan = plan;
    this.readBack = new ReadBackText(plan);
  }

  /**
   * What was found.
   *
   * @param statement what is to be noted, or null
   * @param why why there is nothing, or empty
   */
  record Found(@Nullable Statement statement, String why) {

    static Found none(String why) {
      return new Found(null, why);
    }
  }

  /**
   * One value of a statement that the new one could replace.
   *
   * @param thing what it is a value of
   * @param was the number that stands there
   * @param now the statement with the new value
   */
  private record Value(String thing, BigDecimal was, Statement now) {}

  /** One value of an entry; exact when the entry names the very thing. */
  private record Fit(Standing said, boolean exact, Value value) {

    String thing() {
      return value.thing();
    }
  }

  /** "The belly pan was five, not six." */
  Found change(List<Standing> standing, ChangeNamed said) {
    List<Standing> about = about(standing, said.subject());
    if (about.isEmpty()) {
      return Found.none(Texts.nothingAbout(plan.label(said.subject())));
    }
    Set<String> ids = idsOf(said.subject());
    Amount was = said.was();
    List<Fit> fits = new ArrayList<>();
    for (Standing each : about) {
      values(each.statement(), said.value()).stream()
          .filter(value -> was == null || value.was().compareTo(was.value()) == 0)
          .map(value -> new Fit(each, names(each.statement(), ids), value))
          .forEach(fits::add);
    }
    if (fits.stream().anyMatch(Fit::exact)) {
      fits.removeIf(fit -> !fit.exact());
    }
    Map<String, Fit> things = new LinkedHashMap<>();
    fits.forEach(fit -> things.putIfAbsent(fit.thing(), fit));
    if (things.isEmpty()) {
      return Found.none(
          Texts.noSuchValue(
              plan.label(said.subject()), was == null ? null : ReadBackText.aloud(was)));
    }
    if (things.size() > 1) {
      return Found.none(
          Texts.whichOf(
              things.values().stream()
                  .limit(3)
                  .map(fit -> readBack.of(fit.said.statement()).spoken())
                  .toList()));
    }
    Fit last = fits.get(0);
    Statement now = last.value.now();
    return now.equals(last.said.statement())
        ? Found.none(Texts.SO_ALREADY)
        : new Found(new Corrected(last.said.entry().id(), now), "");
  }

  /** "Scratch the belly pan." */
  Found undo(List<Standing> standing, UndoNamed said) {
    return about(standing, said.subject()).stream()
        .findFirst()
        .map(last -> new Found(new Undone(last.entry().id()), ""))
        .orElseGet(() -> Found.none(Texts.nothingAbout(plan.label(said.subject()))));
  }

  /** What stands about something, the entry noted last first. */
  private List<Standing> about(List<Standing> standing, String subject) {
    Set<String> ids = idsOf(subject);
    return standing.stream()
        .filter(said -> !(said.statement() instanceof JobOpened))
        .filter(said -> !(said.statement() instanceof SpeakerIs))
        .filter(said -> names(said.statement(), ids) || fastens(said.statement(), ids))
        .sorted(Comparator.comparingLong((Standing said) -> said.entry().seq()).reversed())
        .toList();
  }

  private static boolean names(Statement statement, Set<String> ids) {
    return Subjects.all(statement).stream().anyMatch(ids::contains);
  }

  /** "The belly pan" also means what fastens it. */
  private boolean fastens(Statement statement, Set<String> ids) {
    return Subjects.all(statement).stream()
        .flatMap(id -> plan.item(id).stream())
        .map(Item::of)
        .anyMatch(of -> of != null && ids.contains(of));
  }

  /** Whatever has one of its names, a system's points and marks, a point's plug. */
  private Set<String> idsOf(String subject) {
    Set<String> ids = new HashSet<>(Set.of(subject));
    List<String> names = plan.find(subject).map(Named::say).orElse(List.of());
    plan.named().stream()
        .filter(named -> named.say().stream().anyMatch(names::contains))
        .map(Named::id)
        .forEach(ids::add);
    for (FluidSystem system : plan.systems()) {
      List<Point> points =
          Stream.concat(system.drains().stream(), system.fills().stream()).toList();
      if (ids.contains(system.id())) {
        points.forEach(point -> ids.add(point.id()));
        system.marks().forEach(mark -> ids.add(mark.id()));
      }
      points.stream()
          .filter(point -> point.plug() != null && ids.contains(point.plug()))
          .forEach(point -> ids.add(point.id()));
    }
    return ids;
  }

  /** The values of a statement that a new one could replace. */
  private static List<Value> values(Statement statement, Amount value) {
    List<Value> values = new ArrayList<>();
    String thing = Subjects.all(statement).stream().findFirst().orElse("");
    boolean length = value.unit().dimension() == Dimension.LENGTH;
    if (statement instanceof ItemsMoved moved) {
      BigDecimal was =
          length
              ? Optional.ofNullable(moved.headSize()).map(Amount::value).orElse(null)
              : number(moved.count());
      add(values, thing + (length ? SIZE : COUNT), was, Amounts.with(moved, value));
    } else if (statement instanceof TemporaryMoved moved) {
      add(values, thing + COUNT, number(moved.count()), Amounts.with(moved, value));
    } else {
      if (statement instanceof Tightened tightened) {
        add(values, thing + COUNT, number(tightened.count()), Amounts.withCount(tightened, value));
      }
      Amounts.of(statement)
          .ifPresent(
              was ->
                  add(
                      values,
                      thing + was.unit().dimension(),
                      was.value(),
                      Amounts.with(statement, value)));
    }
    return values;
  }

  private static void add(
      List<Value> values, String thing, @Nullable BigDecimal was, Optional<Statement> now) {
    if (was != null && now.isPresent()) {
      values.add(new Value(thing, was, now.get()));
    }
  }

  private static @Nullable BigDecimal number(@Nullable Integer count) {
    return count == null ? null : BigDecimal.valueOf(count);
  }
}

package tallyback.planning;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.FluidAccount;
import tallyback.books.ItemAccount;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Thing;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Fluid;
import tallyback.plan.Plan.FluidBase;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Point;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.ThreadState;
import tallyback.plan.Plan.Torque;
import tallyback.planning.PrepSheet.Why;
import tallyback.trade.Dilution;
import tallyback.trade.Glycol;
import tallyback.trade.TorqueWrench;

/**
 * Makes the {@link PrepSheet} of a plan, or of what is left of a job. Pure functions; what the plan
 * doesn't say is left empty and never guessed.
 */
public final class Preparation {

  private static final Set<Thing> FASTENERS =
      EnumSet.of(Thing.BOLT, Thing.NUT, Thing.SCREW, Thing.STUD, Thing.PLUG);

  private static final Rational HUNDRED = Rational.of(100, 1);
  private static final int DECIMALS = 2;

  private final Plan plan;

  /** By system, in the middle of a job: how much is inside now. */
  private final Map<String, Rational> inside;

  private Preparation(Plan plan, Map<String, Rational> inside) {
    this.plan = plan;
    this.inside = inside;
  }

  /**
   * What is needed for all of a job.
   *
   * @param plan the plan
   * @param pastMinutes working minutes of past jobs of it
   */
  public static PrepSheet of(Plan plan, List<Integer> pastMinutes) {
    Preparation prep = new Preparation(plan, Map.of());
    List<PrepSheet.Part> parts =
        plan.items().stream()
            .filter(item -> item.renew() || item.stretch())
            .map(item -> prep.part(item, item.count(), item.renew() ? Why.RENEWED : Why.STRETCH))
            .toList();
    return prep.sheet(parts, pastMinutes);
  }

  /**
   * What is still needed in the middle of a job: parts are those still to be renewed, and those
   * that broke, were thrown away or lost and not replaced.
   *
   * @param plan the plan as it is frozen in the job
   * @param books the job's books
   * @param pastMinutes working minutes of past jobs of it
   */
  public static PrepSheet of(Plan plan, Books books, List<Integer> pastMinutes) {
    Map<String, Rational> inside = new HashMap<>();
    for (FluidAccount account : books.confirmed().fluids().values()) {
      if (account.openingKnown()) {
        inside.put(account.subject(), account.litres(Account.SYSTEM));
      }
    }
    Preparation prep = new Preparation(plan, inside);
    List<PrepSheet.Part> parts = new ArrayList<>();
    for (ItemAccount account : books.confirmed().items().values()) {
      account.item().ifPresent(item -> prep.missing(item, account).ifPresent(parts::add));
    }
    return prep.sheet(parts, pastMinutes);
  }

  private PrepSheet sheet(List<PrepSheet.Part> parts, List<Integer> pastMinutes) {
    List<PrepSheet.Wrench> wrenches = new ArrayList<>();
    List<PrepSheet.Tightening> noWrench = new ArrayList<>();
    wrenches(wrenches, noWrench);
    return new PrepSheet(
        tools(),
        wrenches,
        noWrench,
        uses(
            plan.items().stream()
                .filter(item -> FASTENERS.contains(item.thing()) && !item.temporary())
                .filter(item -> item.torque() == null)),
        uses(plan.items().stream().filter(item -> angle(item) != null)),
        catches(),
        plan.systems().stream().map(this::fluid).toList(),
        parts,
        threads(),
        uses(plan.items().stream().filter(Item::temporary)),
        plan.machine().sides(),
        plan.steps().stream().flatMap(step -> step.cautions().stream()).distinct().toList(),
        new PrepSheet.Time(
            plan.steps().stream()
                .map(Step::minutes)
                .filter(Objects::nonNull)
                .mapToInt(Integer::intValue)
                .sum(),
            (int) plan.steps().stream().filter(step -> step.minutes() == null).count(),
            pastMinutes.stream().sorted().toList()));
  }

  private static @Nullable Amount angle(Item item) {
    Torque torque = item.torque();
    return torque == null ? null : torque.angle();
  }

  private PrepSheet.Use use(Item item, int count) {
    String of = item.of();
    return new PrepSheet.Use(item.label(), count, of == null ? "" : plan.label(of));
  }

  private List<PrepSheet.Use> uses(Stream<Item> items) {
    return items.map(item -> use(item, item.count())).toList();
  }

  private PrepSheet.Part part(Item item, int count, Why why) {
    Amount length = item.length();
    String what =
        Stream.of(
                item.thread(),
                length == null ? null : length + " long",
                item.grade() == null ? null : "class " + item.grade())
            .filter(Objects::nonNull)
            .collect(Collectors.joining(", "));
    return new PrepSheet.Part(use(item, count), what, why);
  }

  private Optional<PrepSheet.Part> missing(Item item, ItemAccount account) {
    int fitted = Math.max(account.newCount(), -account.count(Account.STOCK));
    int toRenew = item.renew() || item.stretch() ? Math.max(0, item.count() - fitted) : 0;
    // What is in the tray can go back; what is neither there nor on the machine has to be bought.
    int gone =
        item.temporary()
            ? 0
            : Math.max(
                0,
                item.count()
                    - Math.max(0, account.count(Account.MACHINE))
                    - Math.max(0, account.count(Account.TRAY)));
    if (toRenew > 0 && account.fittedNew().isEmpty()) {
      Why why = item.renew() ? Why.RENEWED : Why.STRETCH;
      return Optional.of(part(item, Math.max(toRenew, gone), why));
    }
    return gone > 0 ? Optional.of(part(item, gone, Why.GONE)) : Optional.empty();
  }

  /** A size, however it is written. */
  private record Size(@Nullable Rational millimetres, String drive) {}

  private List<PrepSheet.Tool> tools() {
    Map<Size, List<Item>> bySize = new LinkedHashMap<>();
    for (Item item : plan.items()) {
      boolean turned = FASTENERS.contains(item.thing()) && !item.temporary();
      Amount head = item.head();
      if (head != null || turned) {
        String drive = item.drive() == null ? "" : item.drive();
        Size size = new Size(head == null ? null : head.base(), drive);
        bySize.computeIfAbsent(size, unused -> new ArrayList<>()).add(item);
      }
    }
    Comparator<Size> smallestFirst =
        Comparator.comparing(Size::millimetres, Comparator.nullsLast(Comparator.naturalOrder()));
    return bySize.entrySet().stream()
        .sorted(Map.Entry.comparingByKey(smallestFirst.thenComparing(Size::drive)))
        .map(
            each ->
                new PrepSheet.Tool(
                    each.getValue().get(0).head(),
                    each.getKey().drive(),
                    uses(each.getValue().stream())))
        .toList();
  }

  private void wrenches(List<PrepSheet.Wrench> wrenches, List<PrepSheet.Tightening> noWrench) {
    List<Instrument> there =
        plan.instruments().stream()
            .filter(each -> each.kind() == InstrumentKind.WRENCH)
            .sorted(Comparator.comparing(each -> each.to().base()))
            .toList();
    Map<Instrument, List<PrepSheet.Tightening>> byWrench = new LinkedHashMap<>();
    there.forEach(each -> byWrench.put(each, new ArrayList<>()));
    List<Item> tightened =
        plan.items().stream()
            .filter(item -> item.torque() != null)
            .sorted(Comparator.comparing(item -> torque(item).base()))
            .toList();
    for (Item item : tightened) {
      PrepSheet.Tightening tightening =
          new PrepSheet.Tightening(use(item, item.count()), torque(item));
      // The smallest that is made for it reads it best.
      there.stream()
          .filter(each -> isMadeFor(each, torque(item)))
          .findFirst()
          .map(byWrench::get)
          .orElse(noWrench)
          .add(tightening);
    }
    byWrench.forEach(
        (wrench, tightenings) ->
            wrenches.add(
                new PrepSheet.Wrench(
                    wrench.label(),
                    wrench.from(),
                    wrench.to(),
                    Objects.requireNonNullElse(wrench.calibrated(), ""),
                    tightenings)));
  }

  private static Amount torque(Item item) {
    return Objects.requireNonNull(item.torque(), item.id()).value();
  }

  private static boolean isMadeFor(Instrument wrench, Amount torque) {
    return wrench.from().base().compareTo(torque.base()) <= 0
        && wrench.to().base().compareTo(torque.base()) >= 0
        && TorqueWrench.promised(torque.base().toDouble(), wrench.to().base().toDouble());
  }

  private List<PrepSheet.OnThreads> threads() {
    List<PrepSheet.OnThreads> on = new ArrayList<>();
    for (ThreadState state : ThreadState.values()) {
      List<PrepSheet.Use> uses =
          uses(
              plan.items().stream()
                  .filter(item -> item.torque() != null)
                  .filter(item -> Objects.requireNonNull(item.torque()).threads() == state));
      if (!uses.isEmpty()) {
        on.add(new PrepSheet.OnThreads(state, uses));
      }
    }
    return on;
  }

  private List<PrepSheet.Catch> catches() {
    return plan.systems().stream()
        .filter(system -> !system.drains().isEmpty())
        .map(
            system ->
                new PrepSheet.Catch(
                    system.label(),
                    system.drains().stream()
                        .map(point -> new PrepSheet.Drained(point.label(), point.share()))
                        .toList(),
                    drained(system).map(Preparation::litres)))
        .toList();
  }

  /** What comes out of all drain points together, when the plan says it of each. */
  private static Optional<Rational> drained(FluidSystem system) {
    Rational sum = Rational.ZERO;
    for (Point point : system.drains()) {
      Optional<Rational> share = volume(point.share());
      if (share.isEmpty()) {
        return Optional.empty();
      }
      sum = sum.plus(share.get());
    }
    return system.drains().isEmpty() ? Optional.empty() : Optional.of(sum);
  }

  private static Optional<Rational> volume(@Nullable Amount amount) {
    return amount == null || amount.unit().dimension() != Dimension.VOLUME
        ? Optional.empty()
        : Optional.of(amount.base());
  }

  private static Amount litres(Rational litres) {
    BigDecimal value = litres.toBigDecimal().setScale(DECIMALS, RoundingMode.HALF_UP);
    return new Amount(value, Unit.LITRE);
  }

  private PrepSheet.FluidNeed fluid(FluidSystem system) {
    Optional<Fluid> fluid =
        plan.fluids().stream().filter(each -> each.id().equals(system.fluid())).findFirst();
    Optional<Rational> capacity = volume(system.capacity());
    Optional<Rational> drained = drained(system);
    Optional<Rational> before = volume(system.before()).or(() -> capacity);
    Optional<Rational> stays =
        Optional.ofNullable(inside.get(system.id()))
            .or(() -> before.flatMap(content -> drained.map(content::minus)))
            .filter(rest -> rest.signum() >= 0);
    Optional<Rational> once =
        capacity.flatMap(full -> stays.map(full::minus)).filter(room -> room.signum() >= 0);
    int rounds =
        capacity
            .flatMap(
                full -> once.flatMap(room -> stays.map(rest -> rounds(system, full, room, rest))))
            .orElse(0);
    Rational times = Rational.of(Math.max(1, rounds), 1);
    return new PrepSheet.FluidNeed(
        system.label(),
        fluid.map(Fluid::label).orElse(system.fluid()),
        fluid.map(Fluid::grade).orElse(""),
        fluid.map(Fluid::form).orElse(null),
        once.map(litres -> litres(litres.times(times))),
        stays.map(Preparation::litres),
        rounds,
        capacity.flatMap(
            full -> stays.flatMap(rest -> fluid.flatMap(each -> mix(system, each, full, rest)))));
  }

  /** How often so much is drained and filled until little enough of the old fluid stays. */
  private static int rounds(FluidSystem system, Rational full, Rational once, Rational stays) {
    Amount most = system.oldAtMost();
    if (most == null || full.signum() <= 0 || once.signum() <= 0) {
      return once.signum() > 0 ? 1 : 0;
    }
    Rational wanted = most.in(Unit.PERCENT).dividedBy(HUNDRED);
    OptionalInt more = Dilution.roundsTo(once, full, stays.dividedBy(full), wanted);
    return more.isPresent() ? more.getAsInt() + 1 : 0;
  }

  private Optional<PrepSheet.Mix> mix(
      FluidSystem system, Fluid fluid, Rational full, Rational stays) {
    Amount strength = fluid.strength();
    Glycol glycol =
        fluid.base() == FluidBase.ETHYLENE_GLYCOL
            ? Glycol.ETHYLENE
            : fluid.base() == FluidBase.PROPYLENE_GLYCOL ? Glycol.PROPYLENE : null;
    Optional<Amount> aim = aim(system);
    if (fluid.form() != FluidForm.CONCENTRATE || strength == null || glycol == null) {
      return Optional.empty();
    }
    if (aim.isEmpty()) {
      return Optional.empty();
    }
    java.util.OptionalDouble share =
        glycol.volumeShareFreezingAt(aim.get().in(Unit.CELSIUS).toDouble());
    if (share.isEmpty()) {
      return Optional.empty();
    }
    Rational wanted =
        Rational.of(BigDecimal.valueOf(share.getAsDouble()).setScale(6, RoundingMode.HALF_UP));
    Rational strong = strength.in(Unit.PERCENT).dividedBy(HUNDRED);
    if (!(Dilution.toReach(full, stays, wanted, strong, wanted) instanceof Dilution.Pour kept)) {
      return Optional.empty();
    }
    Optional<Dilution.Pour> thinned =
        Dilution.toReach(full, stays, Rational.ZERO, strong, wanted) instanceof Dilution.Pour pour
            ? Optional.of(pour)
            : Optional.empty();
    return Optional.of(
        new PrepSheet.Mix(
            aim.get(),
            litres(kept.concentrate()),
            litres(kept.water()),
            thinned.map(pour -> litres(pour.concentrate())),
            thinned.map(pour -> litres(pour.water()))));
  }

  /** The middle of what the plan says the protection must be, or the end that it says. */
  private Optional<Amount> aim(FluidSystem system) {
    Set<Amount> ends = new LinkedHashSet<>();
    plan.limits().stream()
        .filter(limit -> limit.measure() == Measure.STRENGTH)
        .filter(limit -> limit.subject().equals(system.id()))
        .findFirst()
        .ifPresent(
            limit ->
                Stream.of(limit.from(), limit.to())
                    .filter(Objects::nonNull)
                    .filter(end -> end.unit().dimension() == Dimension.TEMPERATURE)
                    .forEach(ends::add));
    if (ends.isEmpty()) {
      return Optional.empty();
    }
    Rational sum = Rational.ZERO;
    for (Amount end : ends) {
      sum = sum.plus(end.in(Unit.CELSIUS));
    }
    BigDecimal middle =
        sum.dividedBy(Rational.of(ends.size(), 1)).toBigDecimal().setScale(0, RoundingMode.HALF_UP);
    return Optional.of(new Amount(middle, Unit.CELSIUS));
  }
}

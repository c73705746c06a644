package tallyback.reconcile;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Unit;
import tallyback.plan.Plan;

/**
 * Whatever is said, in whatever order, is judged and never an exception; every finding keeps to its
 * form.
 */
class AnyEntriesTest {

  private static final long SEED = Long.getLong("seed", 99L);

  private final Random random = new Random(SEED);

  @Test
  void nothingThatCanBeSaidBreaksTheReconciler() {
    for (int run = 0; run < 2_000; run++) {
      Plan plan = RandomPlan.of(random);
      List<Entry> entries = entries(plan, random.nextInt(60));
      try {
        Outcome outcome = Reconciler.reconcile(plan, entries);
        outcome.findings().forEach(finding -> keepsToItsForm(finding, entries));
      } catch (RuntimeException e) {
        throw new AssertionError("seed " + SEED + ", run " + run + ": " + entries, e);
      }
    }
  }

  private static void keepsToItsForm(Finding finding, List<Entry> entries) {
    Set<String> ids = new HashSet<>();
    entries.forEach(entry -> ids.add(entry.id()));
    assertTrue(ids.containsAll(finding.entries()), finding::toString);
    assertFalse(finding.expected().isBlank() || finding.found().isBlank(), finding::toString);
    assertTrue(finding.remedy().endsWith("."), finding::toString);
    finding.followers().forEach(follower -> keepsToItsForm(follower, entries));
  }

  private List<Entry> entries(Plan plan, int count) {
    List<String> ids = new ArrayList<>(List.of("no-such-thing", "e1", "e2", "e5", "e9"));
    plan.named().forEach(named -> ids.add(named.id()));
    List<Entry> entries = new ArrayList<>();
    Instant start = Instant.parse("2026-03-02T08:00:00Z");
    for (int seq = 1; seq <= count; seq++) {
      Instant happened = start.plusSeconds(60L * random.nextInt(600));
      entries.add(
          new Entry(
              "e" + (random.nextInt(20) == 0 ? random.nextInt(count) + 1 : seq),
              "job",
              seq,
              happened,
              start.plusSeconds(60L * seq),
              ZoneOffset.UTC,
              "anna",
              "bench",
              Source.SPOKEN,
              random.nextInt(5) == 0 ? Certainty.UNCONFIRMED : Certainty.CONFIRMED,
              "said",
              null,
              statement(ids)));
    }
    return entries;
  }

  private Statement statement(List<String> ids) {
    Class<?>[] kinds = Statement.class.getPermittedSubclasses();
    Class<?> kind = kinds[random.nextInt(kinds.length)];
    RecordComponent[] components = kind.getRecordComponents();
    Class<?>[] types = new Class<?>[components.length];
    @Nullable Object[] values = new @Nullable Object[components.length];
    for (int index = 0; index < components.length; index++) {
      types[index] = components[index].getType();
      boolean mayBeNull = components[index].getAnnotatedType().isAnnotationPresent(Nullable.class);
      values[index] = mayBeNull && random.nextBoolean() ? null : value(types[index], ids);
    }
    try {
      return (Statement) kind.getDeclaredConstructor(types).newInstance(values);
    } catch (ReflectiveOperationException e) {
      throw new LinkageError(e.getMessage(), e);
    }
  }

  private Object value(Class<?> type, List<String> ids) {
    if (type == boolean.class || type == Boolean.class) {
      return random.nextBoolean();
    }
    if (type == Integer.class || type == int.class) {
      return random.nextInt(12) - 2;
    }
    if (type == Amount.class) {
      Unit[] units = Unit.values();
      return new Amount(
          BigDecimal.valueOf(random.nextInt(400) - 40, random.nextInt(3)),
          units[random.nextInt(units.length)]);
    }
    if (type == Instant.class) {
      return Instant.parse("2026-03-02T08:00:00Z").plusSeconds(60L * random.nextInt(600));
    }
    if (type == LocalDate.class) {
      return LocalDate.of(2026, 3, 2).plusDays(random.nextInt(60) - 30);
    }
    if (type == Statement.class) {
      return statement(ids);
    }
    if (type.isEnum()) {
      Object[] constants = type.getEnumConstants();
      return constants[random.nextInt(constants.length)];
    }
    return ids.get(random.nextInt(ids.size()));
  }
}

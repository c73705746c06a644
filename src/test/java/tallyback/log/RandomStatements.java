package tallyback.log;

import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Unit;

/** Notable statements of every kind with random content; its text names the seed. */
final class RandomStatements {

  private static final String[] TEXTS = {
    "", "pump", "block-plug", "\u00fc\u00df\u20ac \"quoted\" \\", "\ud83d\udd27", "a\tb"
  };

  private final long seed;
  private final Random random;
  private final List<Class<? extends Statement>> types =
      List.copyOf(StatementKind.types().values());

  private RandomStatements(long seed) {
    this.seed = seed;
    this.random = new Random(seed);
  }

  static RandomStatements seeded(long seed) {
    return new RandomStatements(seed);
  }

  Statement next() {
    return next(2);
  }

  private Statement next(int depth) {
    Class<? extends Statement> type = types.get(random.nextInt(types.size()));
    if (depth == 0 && (type == Statement.Corrected.class || type == Statement.AddedLater.class)) {
      return new Statement.Memo();
    }
    RecordComponent[] components = type.getRecordComponents();
    @Nullable Object[] values = new @Nullable Object[components.length];
    for (int i = 0; i < components.length; i++) {
      boolean left = StatementFields.mayBeNull(components[i]) && random.nextBoolean();
      values[i] = left ? null : value(components[i], depth);
    }
    try {
      return type.getDeclaredConstructor(
              Arrays.stream(components).map(RecordComponent::getType).toArray(Class<?>[]::new))
          .newInstance(values);
    } catch (ReflectiveOperationException e) {
      throw new LinkageError("records are made from their components", e);
    }
  }

  private Object value(RecordComponent component, int depth) {
    Class<?> type = component.getType();
    if (component.getName().equals("planHash") || component.getName().equals("originalHash")) {
      return Examples.hash(TEXTS[random.nextInt(TEXTS.length)]);
    } else if (type == String.class) {
      return TEXTS[random.nextInt(TEXTS.length)];
    } else if (type == boolean.class) {
      return random.nextBoolean();
    } else if (type == Integer.class) {
      return random.nextInt(Integer.MAX_VALUE);
    } else if (type == Instant.class) {
      return Instant.ofEpochMilli(random.nextLong(0, 253_402_300_799_999L));
    } else if (type == LocalDate.class) {
      return LocalDate.ofEpochDay(random.nextLong(-700_000, 2_900_000));
    } else if (type == Amount.class) {
      BigInteger digits = new BigInteger(random.nextInt(1, 49), random);
      BigDecimal value = new BigDecimal(digits, random.nextInt(10));
      Unit[] units = Unit.values();
      return new Amount(
          random.nextBoolean() ? value : value.negate(), units[random.nextInt(units.length)]);
    } else if (type == Statement.class) {
      return next(depth - 1);
    }
    Object[] words = type.getEnumConstants();
    return words[random.nextInt(words.length)];
  }

  @Override
  public String toString() {
    return "seed " + seed;
  }
}

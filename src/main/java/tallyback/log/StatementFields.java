package tallyback.log;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement;

/**
 * Statements as fields of a JSON object: {@code kind} first, then the record's components in their
 * order under their own names. Read off the records themselves, so that a new kind needs no code
 * here; the published schema and its tests say what the fields are. A component may be null exactly
 * when it is marked {@link Nullable}.
 */
final class StatementFields {

  private StatementFields() {}

  /**
   * The only name that differs from its component: the entry around it has a {@code happenedAt} of
   * its own.
   */
  static String fieldName(RecordComponent component) {
    return component.getDeclaringRecord() == Statement.Retimed.class
            && component.getName().equals("happenedAt")
        ? "to"
        : component.getName();
  }

  static void write(Statement statement, ObjectNode into) {
    into.put("kind", StatementKind.nameOf(statement));
    for (RecordComponent component : statement.getClass().getRecordComponents()) {
      Object value = valueOf(component, statement);
      if (value != null) {
        write(fieldName(component), value, into);
      }
    }
  }

  private static void write(String field, Object value, ObjectNode into) {
    if (value instanceof String text) {
      into.put(field, text);
    } else if (value instanceof Boolean flag) {
      into.put(field, flag);
    } else if (value instanceof Integer number) {
      into.put(field, number);
    } else if (value instanceof Enum<?> word) {
      into.put(field, FieldReader.wordOf(word));
    } else if (value instanceof Instant time) {
      into.put(field, FieldReader.timeText(time));
    } else if (value instanceof LocalDate day) {
      into.put(field, day.toString());
    } else if (value instanceof Amount amount) {
      into.set(field, EntryJson.tree(amount));
    } else if (value instanceof Statement inner) {
      ObjectNode nested = EntryJson.emptyObject();
      write(inner, nested);
      into.set(field, nested);
    } else {
      throw new AssertionError("no JSON for a " + value.getClass().getName());
    }
  }

  /** Reads the kind and its fields, or leaves faults behind and returns null. */
  static @Nullable Statement read(FieldReader fields) {
    int before = fields.faultCount();
    String kind = fields.text("kind");
    if (kind == null) {
      fields.ignoreTheRest();
      return null;
    }
    Class<? extends Statement> type = StatementKind.typeOf(kind);
    if (type == null) {
      fields.fault(
          "kind",
          "one of " + String.join(", ", StatementKind.types().keySet()),
          "\"" + kind + "\"");
      fields.ignoreTheRest();
      return null;
    }
    RecordComponent[] components = type.getRecordComponents();
    @Nullable Object[] values = new @Nullable Object[components.length];
    for (int i = 0; i < components.length; i++) {
      values[i] = read(components[i], fields);
    }
    return fields.faultCount() == before ? make(type, components, values) : null;
  }

  private static @Nullable Object read(RecordComponent component, FieldReader fields) {
    String field = fieldName(component);
    if (mayBeNull(component) && !fields.has(field)) {
      return null;
    }
    Class<?> type = component.getType();
    if (field.equals("planHash") || field.equals("originalHash")) {
      return fields.hash(field);
    } else if (type == String.class) {
      return fields.text(field);
    } else if (type == boolean.class) {
      return fields.yesOrNo(field);
    } else if (type == Integer.class) {
      Long number = fields.wholeNumber(field, 0, Integer.MAX_VALUE);
      return number == null ? null : Math.toIntExact(number);
    } else if (type.isEnum()) {
      return word(field, type, fields);
    } else if (type == Instant.class) {
      return fields.time(field);
    } else if (type == LocalDate.class) {
      return fields.day(field);
    } else if (type == Amount.class) {
      FieldReader inner = fields.object(field);
      return inner == null ? null : EntryJson.amount(inner);
    } else if (type == Statement.class) {
      return nested(field, fields);
    }
    throw new AssertionError("no JSON for a " + type.getName());
  }

  private static @Nullable Statement nested(String field, FieldReader fields) {
    FieldReader inner = fields.object(field);
    if (inner == null) {
      return null;
    }
    Statement statement = read(inner);
    inner.refuseTheRest();
    return statement;
  }

  @SuppressWarnings({"unchecked", "rawtypes"}) // the caller has seen that it is an enum
  private static @Nullable Object word(String field, Class<?> type, FieldReader fields) {
    return fields.word(field, (Class<? extends Enum>) type);
  }

  static boolean mayBeNull(RecordComponent component) {
    return component.getAnnotatedType().isAnnotationPresent(Nullable.class);
  }

  private static @Nullable Object valueOf(RecordComponent component, Statement statement) {
    try {
      return component.getAccessor().invoke(statement);
    } catch (IllegalAccessException | InvocationTargetException e) {
      throw new LinkageError("a record's accessor only returns", e);
    }
  }

  private static Statement make(
      Class<? extends Statement> type, RecordComponent[] components, @Nullable Object[] values) {
    Class<?>[] types =
        Arrays.stream(components).map(RecordComponent::getType).toArray(Class<?>[]::new);
    try {
      Constructor<? extends Statement> constructor = type.getDeclaredConstructor(types);
      return constructor.newInstance(values);
    } catch (ReflectiveOperationException e) {
      throw new LinkageError("a statement's record takes its own components", e);
    }
  }
}

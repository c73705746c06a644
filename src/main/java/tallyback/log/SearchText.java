package tallyback.log;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/**
 * What the entries of a job can be found by: the words themselves, and all names that the plan
 * frozen in the job has for what they are about. The same for every adapter. Immutable.
 *
 * <p>A plan that can't be read any more names nothing; ids then stand as they are.
 */
public final class SearchText {

  /** Raised whenever this class makes other texts than before, so that an index is made anew. */
  public static final int VERSION = 2;

  /** What names an entry or a plan's whole text, and is nothing to look for. */
  private static final Set<String> NOT_LOOKED_FOR = Set.of("target", "planHash", "planText");

  private final Map<String, String> names = new HashMap<>();
  private final String machine;
  private final @Nullable String serial;

  private SearchText(Optional<Plan> plan) {
    plan.ifPresent(
        each ->
            each.named()
                .forEach(named -> names.putIfAbsent(named.id(), String.join(" ", named.say()))));
    this.machine = plan.map(each -> each.machine().name()).orElse("");
    this.serial = plan.map(each -> each.machine().serial()).orElse(null);
  }

  /**
   * Of a job.
   *
   * @param planText the plan's text as frozen in it
   */
  public static SearchText ofPlan(String planText) {
    return new SearchText(
        planText.isBlank() ? Optional.empty() : PlanReader.read("plan", planText).plan());
  }

  /** The machine's name; empty when the plan gives none. */
  public String machine() {
    return machine;
  }

  /** The machine's serial number, or null. */
  public @Nullable String serial() {
    return serial;
  }

  /** What an entry can be found by. */
  public String of(Entry entry) {
    Set<String> texts = new LinkedHashSet<>();
    texts.add(entry.words());
    gather(entry.statement(), texts);
    return String.join(" ", texts);
  }

  private void gather(Statement statement, Set<String> texts) {
    if (statement instanceof NotUnderstoodSettled) {
      // It only names two entries.
      return;
    }
    for (RecordComponent component : statement.getClass().getRecordComponents()) {
      if (NOT_LOOKED_FOR.contains(component.getName())) {
        continue;
      }
      Object value = valueOf(component, statement);
      if (value instanceof String text) {
        texts.add(names.getOrDefault(text, text));
      } else if (value instanceof Statement inner) {
        gather(inner, texts);
      }
    }
  }

  private static @Nullable Object valueOf(RecordComponent component, Statement statement) {
    try {
      return component.getAccessor().invoke(statement);
    } catch (IllegalAccessException | InvocationTargetException e) {
      throw new LinkageError("a record's accessor only returns", e);
    }
  }
}

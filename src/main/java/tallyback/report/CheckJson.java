package tallyback.report;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.Collection;
import java.util.Locale;
import tallyback.model.Amount;
import tallyback.model.Balance;
import tallyback.model.Finding;
import tallyback.model.Verdict;
import tallyback.reconcile.Outcome;

/**
 * The result of a check for other programs: one JSON object on one line, described by {@code
 * tallyback/schema/check.schema.json} in the jar. Stateless, so any thread may use it.
 */
public final class CheckJson {

  /** The schema number that each object carries. */
  public static final int SCHEMA = 1;

  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private CheckJson() {}

  /**
   * The outcome as one line of JSON without a line end. Members stand in a fixed order; {@code
   * difference} and {@code tolerance} are null where a finding has none.
   *
   * @param job id of the job
   * @param outcome what the reconciler made of it
   */
  public static String line(String job, Outcome outcome) {
    ObjectNode check = NODES.objectNode();
    check.put("schema", SCHEMA);
    check.put("job", job);
    check.set("verdict", verdict(outcome.verdict()));
    check.set("unchecked", texts(outcome.unchecked()));
    ArrayNode balances = check.putArray("balances");
    outcome.balances().forEach(balance -> balances.add(balance(balance)));
    ArrayNode findings = check.putArray("findings");
    outcome.findings().forEach(finding -> findings.add(finding(finding)));
    if (!outcome.answers().isEmpty()) {
      ArrayNode answers = check.putArray("answers");
      outcome.answers().forEach(each -> answers.add(answer(each)));
    }
    try {
      return MAPPER.writeValueAsString(check);
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("a tree of plain nodes could not be written", impossible);
    }
  }

  private static ObjectNode verdict(Verdict verdict) {
    ObjectNode node = NODES.objectNode();
    node.put("startForTest", word(verdict.startForTest()));
    node.put("work", word(verdict.work()));
    node.put("handOver", word(verdict.handOver()));
    return node;
  }

  private static ObjectNode balance(Balance balance) {
    ObjectNode node = NODES.objectNode();
    node.put("subject", balance.subject());
    node.put("label", balance.label());
    ArrayNode lines = node.putArray("lines");
    for (Balance.Line line : balance.lines()) {
      ObjectNode each = lines.addObject();
      each.put("account", word(line.account()));
      Integer count = line.count();
      if (count != null) {
        each.put("count", count);
      }
      Amount amount = line.amount();
      if (amount != null) {
        each.set("amount", amount(amount));
      }
      each.put("changeOnly", line.opening());
    }
    return node;
  }

  private static ObjectNode amount(Amount amount) {
    ObjectNode node = NODES.objectNode();
    node.put("value", amount.value().toPlainString());
    node.put("unit", amount.unit().symbol());
    return node;
  }

  private static ObjectNode finding(Finding finding) {
    ObjectNode node = NODES.objectNode();
    node.put("kind", finding.kind());
    node.put("weight", word(finding.weight()));
    node.put("subject", finding.subject());
    node.put("expected", finding.expected());
    node.put("found", finding.found());
    node.put("difference", finding.difference());
    node.put("tolerance", finding.tolerance());
    node.set("entries", texts(finding.entries()));
    node.put("remedy", finding.remedy());
    ArrayNode followers = node.putArray("followers");
    finding.followers().forEach(follower -> followers.add(finding(follower)));
    return node;
  }

  private static ObjectNode answer(Outcome.Answered answered) {
    ObjectNode node = NODES.objectNode();
    node.put("entry", answered.entry().id());
    node.put("finding", answered.answer().finding());
    node.put("end", word(answered.answer().end()));
    node.put("by", answered.answer().by());
    node.put("why", answered.answer().why());
    LocalDate again = answered.answer().again();
    node.put("again", again == null ? null : again.toString());
    node.put("holds", answered.holds());
    node.put("settles", answered.settles());
    return node;
  }

  private static ArrayNode texts(Collection<String> texts) {
    ArrayNode array = NODES.arrayNode();
    texts.forEach(array::add);
    return array;
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}

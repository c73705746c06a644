package tallyback.log;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.HowHeard;
import tallyback.model.HowHeard.Asked;
import tallyback.model.Statement;
import tallyback.model.Statement.Answer;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Memo;
import tallyback.model.Unit;

final class EntryJsonTest {

  private static final String MEMO =
      "{\"schema\":1,\"id\":\"bench-1-7\",\"job\":\"pump\",\"seq\":7,"
          + "\"happenedAt\":\"2026-03-02T08:15:00.250Z\",\"recordedAt\":\"2026-03-02T08:15:00.251Z\","
          + "\"zone\":\"Europe/Dublin\",\"actor\":\"una\",\"device\":\"bench-1\",\"source\":\"spoken\","
          + "\"certainty\":\"confirmed\",\"words\":\"as it was said \u00b0\",\"kind\":\"memo\"}";

  @Test
  void theTextOfAMemoIsThis() {
    assertEquals(MEMO, EntryJson.text(Examples.entry(7, new Memo(), null)));
  }

  @Test
  void anAmountKeepsItsTrailingNoughtsAndItsUnit() {
    var drained =
        new FluidMoved(
            FluidMove.PUT_BACK,
            Amount.of("2.10", Unit.LITRE),
            false,
            null,
            null,
            null,
            null,
            null,
            null,
            null);
    String text = EntryJson.text(Examples.entry(1, drained, "ab".repeat(32)));
    assertTrue(
        text.endsWith(
            "\"kind\":\"fluid\",\"move\":\"put-back\",\"amount\":{\"value\":\"2.10\",\"unit\":\"L\"},"
                + "\"about\":false,\"clip\":\""
                + "ab".repeat(32)
                + "\"}"),
        text);
  }

  @Test
  void everyNotableStatementHasAnExampleAndAName() {
    Set<String> notable =
        Arrays.stream(Statement.class.getPermittedSubclasses())
            .map(Class::getSimpleName)
            .filter(
                name ->
                    !Set.of(
                            "SameAgain",
                            "ChangeLast",
                            "WasEarlier",
                            "Answer",
                            "MoreOfSame",
                            "Named",
                            "ChangeNamed",
                            "CancelTimer",
                            "UndoNamed",
                            "OtherReading",
                            "Fell",
                            "MeantAt",
                            "PutOff",
                            "Chosen")
                        .contains(name))
            .collect(Collectors.toCollection(TreeSet::new));
    Set<String> shown =
        Examples.statements().stream()
            .map(each -> each.getClass().getSimpleName())
            .collect(Collectors.toCollection(TreeSet::new));
    Set<String> named =
        StatementKind.types().values().stream()
            .map(Class::getSimpleName)
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(notable, shown);
    assertEquals(notable, named);
  }

  @Test
  void everyExampleComesBackAsItWas() {
    long seq = 0;
    for (Statement statement : Examples.statements()) {
      Entry entry = Examples.entry(++seq, statement, seq % 2 == 0 ? "0f".repeat(32) : null);
      String text = EntryJson.text(entry);
      assertEquals(entry, EntryJson.read(text));
      assertEquals(text, EntryJson.text(EntryJson.read(text)));
    }
  }

  @Test
  void randomStatementsComeBackAsTheyWere() {
    RandomStatements random = RandomStatements.seeded(20260302L);
    for (int i = 1; i <= 2000; i++) {
      Entry entry = Examples.entry(i, random.next(), null);
      assertEquals(entry, EntryJson.read(EntryJson.text(entry)), random.toString());
    }
  }

  @Test
  void theLocaleChangesNothing() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("tr-TR-u-nu-arab"));
      var entry =
          Examples.entry(
              7,
              new FluidMoved(
                  FluidMove.BLED_OUT,
                  Amount.of("1234.5", Unit.MILLILITRE),
                  false,
                  null,
                  null,
                  null,
                  null,
                  null,
                  null,
                  null),
              null);
      String text = EntryJson.text(entry);
      assertTrue(
          text.contains("\"move\":\"bled-out\",\"amount\":{\"value\":\"1234.5\",\"unit\":\"mL\"}"),
          text);
      assertTrue(text.contains("\"seq\":7,\"happenedAt\":\"2026-03-02T08:15:00.250Z\""), text);
      assertEquals(entry, EntryJson.read(text));
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void allFaultsAreNamedAtOnce() {
    String faulty =
        MEMO.replace("\"seq\":7", "\"seq\":0")
            .replace("\"actor\":\"una\",", "")
            .replace("\"spoken\"", "\"SPOKEN\"")
            .replace("08:15:00.250Z", "08:15Z")
            .replace("Europe/Dublin", "Orchard")
            .replace("\"memo\"", "\"memo\",\"mood\":\"good\"");
    assertEquals(
        "entry: seq: expected a whole number from 1, found 0;"
            + " happenedAt: expected a UTC time like 2026-03-02T08:15:00.000Z, found \"2026-03-02T08:15Z\";"
            + " zone: expected the name of a time zone, found \"Orchard\";"
            + " actor: expected text, found nothing;"
            + " source: expected one of spoken, typed, tool, found \"SPOKEN\";"
            + " mood: expected no such field, found \"good\"",
        refusal(faulty));
  }

  @Test
  void aFaultInsideAStatementNamesItsPath() {
    String json =
        EntryJson.text(
            Examples.entry(
                1,
                new Statement.Corrected(
                    "x",
                    new Measured(
                        Measure.GAP,
                        Amount.of("0.40", Unit.MILLIMETRE),
                        null,
                        null,
                        null,
                        null,
                        null)),
                null));
    assertEquals(
        "entry: now.amount.unit: expected the symbol of a unit, found \"furlong\"",
        refusal(json.replace("\"mm\"", "\"furlong\"")));
    assertEquals(
        "entry: now.amount.value: expected a decimal number as text, found 0.45",
        refusal(json.replace("\"0.40\"", "0.45")));
  }

  @Test
  void anUnknownKindIsRefusedOnce() {
    String message = refusal(MEMO.replace("\"memo\"", "\"song\",\"verse\":2"));
    assertTrue(message.startsWith("entry: kind: expected one of fluid, items, "), message);
    assertTrue(message.endsWith(", found \"song\""), message);
  }

  @Test
  void aNewerSchemaIsRefusedAsNewer() {
    assertEquals(
        "entry: written by a newer version of Tallyback (schema 2, this version reads up to 1);"
            + " use the newer version",
        refusal(MEMO.replace("\"schema\":1", "\"schema\":2").replace("\"memo\"", "\"song\"")));
  }

  @Test
  void halfATextTwiceTheSameKeyAndMoreAfterItAreRefused() {
    assertTrue(refusal(MEMO.substring(0, 60)).contains("expected JSON, found a fault at line 1"));
    assertTrue(refusal(MEMO.replace("\"seq\":7", "\"seq\":7,\"seq\":8")).contains("Duplicate"));
    assertTrue(refusal(MEMO + "{}").contains("expected JSON"));
    assertTrue(refusal("[]").startsWith("entry: expected a JSON object, found []"));
    assertTrue(refusal("").startsWith("entry: expected a JSON object"));
  }

  @Test
  void howItWasHeardComesBackAndIsBounded() {
    HowHeard heard =
        new HowHeard(
            List.of("to fifteen", "to\nfifty", "x".repeat(2000)),
            List.of(
                new Asked("did you say \u201cfifteen\u201d?", null), new Asked("15 what?", "")));
    Entry entry = with(heard);
    String text = EntryJson.text(entry);
    assertEquals(entry, EntryJson.read(text));
    assertTrue(text.contains("{\"words\":\"to fifty\"}"), text);
    assertTrue(text.contains("{\"question\":\"15 what?\",\"answer\":\"\"}"), text);
    assertTrue(!text.contains("x".repeat(1001)), text);
    HowHeard most =
        new HowHeard(
            Collections.nCopies(50, "\ud83d\udd27".repeat(2000)),
            Collections.nCopies(50, new Asked("\ud800?", "yes")));
    assertEquals(with(most), EntryJson.read(EntryJson.text(with(most))));
    assertEquals(HowHeard.MOST, most.readings().size());
    assertEquals(HowHeard.LONGEST, most.readings().get(0).codePointCount(0, 2000));
    assertEquals(" ?", most.asked().get(0).question());
    String refused =
        refusal(
            text.replace("\"to fifteen\"", "15")
                .replace("\"question\":\"15 what?\"", "\"query\":\"15\""));
    assertTrue(refused.contains("heard.readings[0].words: expected one line"), refused);
    assertTrue(refused.contains("heard.asked[1].question"), refused);
    assertTrue(refused.contains("heard.asked[1].query: expected no such field"), refused);
    assertTrue(
        refusal(MEMO.replace("}", ",\"heard\":{\"readings\":[1]}}")).contains("a list of at most"),
        "no objects");
  }

  private static Entry with(HowHeard heard) {
    Entry plain = Examples.entry(1, new Memo(), null);
    return new Entry(
        plain.id(),
        plain.job(),
        1,
        plain.happenedAt(),
        plain.recordedAt(),
        plain.zone(),
        plain.actor(),
        plain.device(),
        plain.source(),
        plain.certainty(),
        plain.words(),
        null,
        plain.statement(),
        heard);
  }

  @Test
  void anAnswerIsNeverWritten() {
    var answer = Examples.entry(1, new Memo(), null);
    var entry =
        new Entry(
            answer.id(),
            answer.job(),
            1,
            answer.happenedAt(),
            answer.recordedAt(),
            answer.zone(),
            answer.actor(),
            answer.device(),
            answer.source(),
            answer.certainty(),
            "yes",
            null,
            new Answer(true, null, null));
    assertThrows(LogRefused.class, () -> EntryJson.text(entry));
  }

  @Test
  void anAmountWithTooManyDigitsIsRefused() {
    LogRefused refused =
        assertThrows(LogRefused.class, () -> EntryJson.tree(Amount.of("1E+15", Unit.GRAM)));
    assertEquals(
        "amount: expected at most 15 digits before and 9 after the point, found 1E+15;"
            + " say it with fewer digits",
        refused.getMessage());
  }

  private static String refusal(String json) {
    return String.valueOf(assertThrows(LogRefused.class, () -> EntryJson.read(json)).getMessage());
  }
}

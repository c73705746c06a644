package tallyback.web;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tallyback.app.LiveJob;
import tallyback.app.Noisiness;
import tallyback.dialogue.Reply;
import tallyback.dialogue.answers.Answer;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Question.OfListening;
import tallyback.report.SafeText;
import tallyback.report.WallView;

/** The messages between server and page, as JSON. Stateless. */
final class Messages {

  private static final int DEEPEST = 8;
  private static final JsonMapper JSON =
      JsonMapper.builder(
              JsonFactory.builder()
                  .streamReadConstraints(
                      StreamReadConstraints.builder().maxNestingDepth(DEEPEST).build())
                  .build())
          .build();

  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

  private Messages() {}

  /**
   * Reads a message.
   *
   * @throws BadMessage if it is none
   */
  static JsonNode read(String text) {
    try {
      JsonNode message = JSON.readTree(text);
      if (message != null && message.isObject() && message.path("type").isTextual()) {
        return message;
      }
    } catch (JsonProcessingException e) {
      throw new BadMessage("expected a JSON object");
    }
    throw new BadMessage("expected a JSON object with a type");
  }

  /**
   * A member that is a short text.
   *
   * @param pattern what it must look like
   */
  static String text(JsonNode message, String member, String pattern) {
    JsonNode value = message.path(member);
    if (!value.isTextual() || !value.textValue().matches(pattern)) {
      throw new BadMessage("expected " + member + " like " + pattern);
    }
    return value.textValue();
  }

  /** A member that is a number from 0 on. */
  static double number(JsonNode message, String member) {
    JsonNode value = message.path(member);
    if (!value.isNumber() || !(value.doubleValue() >= 0) || value.doubleValue() > 1e15) {
      throw new BadMessage("expected " + member + " as a number from 0 on");
    }
    return value.doubleValue();
  }

  static ObjectNode of(String type) {
    return JsonNodeFactory.instance.objectNode().put("type", type);
  }

  /** What became of an utterance. */
  static ObjectNode told(LiveJob.Event.Told told, EntryGrammar grammar, ZoneId zone) {
    Reply reply = told.reply();
    Entry entry = reply.entry();
    boolean noted = reply.status() == Reply.Status.NOTED && entry != null;
    ObjectNode message =
        heard(
            reply.status().name().toLowerCase(Locale.ROOT),
            told.at(),
            zone,
            reply.readings().isEmpty() ? "" : reply.readings().get(0),
            noted ? readBack(entry, grammar) : shown(reply));
    message.put("reminder", reply.reminder());
    if (Double.isFinite(told.snrDb())) {
      message.put("snrDb", Math.round(told.snrDb()));
    }
    return message;
  }

  private static String shown(Reply reply) {
    Answer answer = reply.answer();
    return answer == null ? reply.say() : answer.shown();
  }

  /** A reminder that somebody asked for. */
  static ObjectNode reminder(LiveJob.Event.ReminderDue due, ZoneId zone) {
    return heard("reminder", due.at(), zone, "", due.text());
  }

  /** An entry noted before, as if it had just been told. */
  static ObjectNode earlier(Entry entry, EntryGrammar grammar) {
    return heard(
        entry.certainty() == Certainty.CONFIRMED ? "noted" : "unconfirmed",
        entry.happenedAt(),
        entry.zone(),
        entry.words(),
        readBack(entry, grammar));
  }

  /** Something was asked and never answered. */
  static ObjectNode leftOpen(Entry entry, EntryGrammar grammar) {
    return heard(
        "unconfirmed",
        entry.happenedAt(),
        entry.zone(),
        entry.words(),
        PageTexts.LEFT_OPEN + ": " + readBack(entry, grammar));
  }

  static ObjectNode heard(String status, Instant at, ZoneId zone, String words, String says) {
    return of("told")
        .put("status", status)
        .put("at", at.toString())
        .put("time", TIME.format(at.atZone(zone)))
        .put("heard", SafeText.visible(words))
        .put("says", SafeText.visible(says));
  }

  private static String readBack(@Nullable Entry entry, EntryGrammar grammar) {
    return grammar.readBack(Objects.requireNonNull(entry).statement()).written();
  }

  /** Which way to be heard was ordered, as the page calls it. */
  static ObjectNode way(OfListening way) {
    return of("way")
        .put(
            "way",
            switch (way) {
              case AFTER_THE_WORD -> "word";
              case TO_EVERYTHING -> "open";
              case WHILE_HELD -> "held";
            });
  }

  /** How far what is heard can be trusted, as the page calls it. */
  static ObjectNode noise(Noisiness now) {
    return of("noise")
        .put(
            "state",
            switch (now) {
              case QUIET -> "good";
              case NOISY -> "fair";
              case TOO_NOISY -> "poor";
            });
  }

  /** What is to be known about the clocks; empty when they are right again. */
  static ObjectNode clock(String says) {
    return of("clock").put("says", says);
  }

  /** What is wrong with the second recogniser. */
  static ObjectNode second(String says) {
    return of("second").put("says", says);
  }

  /** What came of learning the noise. */
  static ObjectNode usedTo(String says) {
    return of("used-to").put("says", says);
  }

  /** What may be answered now. */
  static ObjectNode answers(List<String> answers) {
    ObjectNode message = of("answers");
    ArrayNode list = message.putArray("answers");
    answers.forEach(list::add);
    return message;
  }

  /** How the job stands. */
  static ObjectNode board(WallView view, long entries) {
    ObjectNode message = of("board");
    message.put("job", view.job());
    message.put("entries", entries);
    message.put("startQuestion", WallView.startQuestion());
    message.put("start", view.start());
    message.put("startAnswer", view.startAnswer().name().toLowerCase(Locale.ROOT));
    message.put("checks", view.checks());
    message.put("paused", view.paused());
    WallView.NextStep step = view.step();
    if (step != null) {
      ObjectNode next = message.putObject("step");
      next.put("name", step.name()).put("begun", step.begun());
      ArrayNode cautions = next.putArray("cautions");
      step.cautions().forEach(cautions::add);
    }
    lines(message.putArray("stops"), view.stops());
    lines(message.putArray("off"), view.off());
    lines(message.putArray("loose"), view.loose());
    lines(message.putArray("fluids"), view.fluids());
    return message;
  }

  private static void lines(ArrayNode array, List<WallView.Line> lines) {
    lines.forEach(each -> array.addObject().put("name", each.name()).put("says", each.says()));
  }
}

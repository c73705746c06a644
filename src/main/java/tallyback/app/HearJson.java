package tallyback.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import tallyback.dialogue.Reply;
import tallyback.log.EntryJson;
import tallyback.model.Entry;

/**
 * What became of an utterance as one line of JSON; its schema is {@code
 * tallyback/schema/hear.schema.json} in the jar.
 */
public final class HearJson {

  /** The number of the form. */
  public static final int SCHEMA = 1;

  private HearJson() {}

  /** Of a question nothing is noted, so for whoever reads entries it is none. */
  private static String status(Reply.Status status) {
    return (status == Reply.Status.ANSWERED ? Reply.Status.REJECTED : status)
        .name()
        .toLowerCase(Locale.ROOT);
  }

  /** One line, without line break. */
  public static String line(RecordedSound.Told told) {
    Reply reply = told.reply();
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schema", SCHEMA);
    json.put("file", told.file());
    json.put("startMs", told.startMs());
    json.put("endMs", told.endMs());
    json.put("status", status(reply.status()));
    json.put("words", reply.readings().isEmpty() ? "" : reply.readings().get(0));
    ArrayNode readings = json.putArray("readings");
    reply.readings().forEach(words -> readings.addObject().put("words", words));
    if (Double.isFinite(told.snrDb())) {
      json.put("snrDb", BigDecimal.valueOf(told.snrDb()).setScale(1, RoundingMode.HALF_UP));
    } else {
      json.putNull("snrDb");
    }
    json.put("tooNoisy", told.tooNoisy());
    Entry entry = reply.entry();
    json.set("entry", entry == null ? json.nullNode() : EntryJson.tree(entry));
    return json.toString();
  }
}

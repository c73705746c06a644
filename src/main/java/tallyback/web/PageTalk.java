package tallyback.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.websocket.WsBinaryMessageContext;
import io.javalin.websocket.WsContext;
import io.javalin.websocket.WsMessageContext;
import java.nio.ByteBuffer;
import java.time.Instant;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import org.eclipse.jetty.websocket.api.StatusCode;
import tallyback.app.LiveJob;
import tallyback.app.MachineFailed;
import tallyback.log.LogFailed;
import tallyback.log.LogRefused;

/**
 * What pages say: takes their connections and each of their messages, and hands on what is in them.
 * Called on threads of the server; nothing here waits for more than a lock.
 */
final class PageTalk {

  private static final int MOST_STREAMS = 16;
  private static final String NAME = "[a-z0-9-]{1,40}";

  private final PageServer.Settings settings;
  private final Pages pages;
  private final JobBoard board;
  private final PageSound sound;
  private final PagePlayer player;
  private final LiveJob live;
  private final Map<String, PageLink> links = new ConcurrentHashMap<>();

  PageTalk(
      PageServer.Settings settings,
      Pages pages,
      JobBoard board,
      PageSound sound,
      PagePlayer player,
      LiveJob live) {
    this.settings = settings;
    this.pages = pages;
    this.board = board;
    this.sound = sound;
    this.player = player;
    this.live = live;
  }

  /** Somebody has connected. */
  void come(WsContext context) {
    PageLink link = new PageLink(context.session, PhoneGate.pairedAs(context));
    if (pages.add(link)) {
      links.put(context.sessionId(), link);
    } else {
      link.close(StatusCode.TRY_AGAIN_LATER, PageTexts.TOO_MANY);
    }
  }

  /** A connection has ended. */
  void gone(WsContext context) {
    PageLink link = links.remove(context.sessionId());
    if (link != null) {
      pages.remove(link);
    }
  }

  /** A page says something. */
  void takeText(WsMessageContext context) {
    take(context, link -> message(link, context.message()));
  }

  /** A page sends sound. */
  void takeSound(WsBinaryMessageContext context) {
    take(context, link -> sound(link, context.data()));
  }

  private void take(WsContext context, Consumer<PageLink> work) {
    PageLink link = links.get(context.sessionId());
    if (link == null) {
      return;
    }
    try {
      work.accept(link);
    } catch (BadMessage e) {
      link.close(StatusCode.POLICY_VIOLATION, String.valueOf(e.getMessage()));
    } catch (MachineFailed | LogRefused | LogFailed | IllegalStateException e) {
      // The hearing has ended: run() tells why.
      link.close(StatusCode.SERVER_ERROR, PageTexts.OVER);
    }
  }

  private void sound(PageLink link, ByteBuffer data) {
    PageLink.Hello hello = link.hello();
    PageClock clock = link.clock();
    if (hello == null || clock == null) {
      throw new BadMessage("expected hello first");
    }
    SoundFrame frame = SoundFrame.read(data);
    if (pages.listening() != link) {
      // Another has taken over while this was on its way: it keeps it, as nobody says it is
      // settled.
      return;
    }
    double atMs;
    synchronized (clock) {
      atMs = frame.pageMs() + clock.offsetMs();
    }
    if (!sound.accept(name(hello, frame.stream().toString()), frame, atMs)) {
      throw new BadMessage(PageTexts.TOO_MUCH);
    }
  }

  private static String name(PageLink.Hello hello, String stream) {
    return hello.device() + "-" + stream;
  }

  private void message(PageLink link, String text) {
    JsonNode message = Messages.read(text);
    String type = message.path("type").textValue();
    if (type.equals("hello")) {
      hello(link, message);
      return;
    }
    PageLink.Hello hello = link.hello();
    PageClock clock = link.clock();
    if (hello == null || clock == null) {
      throw new BadMessage("expected hello first");
    }
    switch (type) {
      case "pong" -> pong(link, clock, message);
      case "listen" -> listen(link, hello, message);
      case "watch" -> pages.watch(link);
      case "played" -> player.ended((int) Messages.number(message, "number"));
      case "words" -> words(link, hello, message);
      case "ended" -> {
        if (pages.listening() == link) {
          sound.end(name(hello, Messages.text(message, "stream", NAME)), (double) settings.nowMs());
        }
      }
      case "lost" -> lost(link, hello, clock, message);
      default -> throw new BadMessage("expected another type than " + type.length() + " letters");
    }
  }

  private void pong(PageLink link, PageClock clock, JsonNode message) {
    double movedMs;
    synchronized (clock) {
      movedMs =
          clock.measured(
              (long) Messages.number(message, "sentMs"),
              Messages.number(message, "pageMs"),
              settings.nowMs());
    }
    if (Math.abs(movedMs) >= 1000 && pages.listening() == link) {
      link.send(Messages.clock(PageTexts.movedApart(Math.round(Math.abs(movedMs) / 1000))));
    }
  }

  private void hello(PageLink link, JsonNode message) {
    if (message.path("version").asInt() != 1) {
      throw new BadMessage("expected a page of version 1; load it anew");
    }
    String said = Messages.text(message, "device", NAME);
    // A paired device speaks under its own name, whatever it says.
    String pairedAs = link.pairedAs();
    link.greeted(
        new PageLink.Hello(pairedAs == null ? said : pairedAs, Messages.text(message, "tab", NAME)),
        new PageClock(Messages.number(message, "pageMs"), settings.nowMs()));
    board.greet(link);
  }

  /** A page wants to listen: it is told from where on it is to send of what it still has. */
  private void listen(PageLink link, PageLink.Hello hello, JsonNode message) {
    JsonNode streams = message.path("streams");
    if (!streams.isArray() || streams.size() > MOST_STREAMS) {
      throw new BadMessage("expected streams, 16 at most");
    }
    if (board.job() == null || !pages.listen(link, message.path("takeOver").asBoolean(false))) {
      return;
    }
    ObjectNode wanted = Messages.of("wanted");
    ArrayNode list = wanted.putArray("streams");
    for (JsonNode each : streams) {
      String stream = Messages.text(each, "stream", NAME);
      long oldest = (long) Messages.number(each, "sample");
      list.addObject()
          .put("stream", stream)
          .put("sample", sound.wanted(name(hello, stream), oldest));
    }
    link.send(wanted);
  }

  private void words(PageLink link, PageLink.Hello hello, JsonNode message) {
    String id = Messages.text(message, "id", NAME);
    JsonNode words = message.path("words");
    if (!words.isTextual() || words.textValue().isBlank() || words.textValue().length() > 400) {
      throw new BadMessage("expected words, 400 letters at most");
    }
    boolean taken =
        live.enter(
            hello.device() + "-typed-" + id,
            settings.setting().clock().instant(),
            words.textValue().strip());
    link.send(
        Messages.of("words")
            .put("id", id)
            .put("taken", taken)
            .put("says", taken ? "" : PageTexts.BUSY));
  }

  private void lost(PageLink link, PageLink.Hello hello, PageClock clock, JsonNode message) {
    String stream = Messages.text(message, "stream", NAME);
    long from = (long) Messages.number(message, "from");
    double pageMs = Messages.number(message, "pageMs");
    Instant at;
    synchronized (clock) {
      at = Instant.ofEpochMilli(Math.round(pageMs + clock.offsetMs()));
    }
    boolean taken = live.undelivered(name(hello, stream) + "-" + from + "-lost", at);
    link.send(Messages.of("lost").put("stream", stream).put("from", from).put("noted", taken));
  }
}

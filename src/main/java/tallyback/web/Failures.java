package tallyback.web;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import io.javalin.http.Handler;
import java.util.List;
import java.util.function.BiConsumer;
import java.util.stream.Stream;
import tallyback.app.MachineFailed;
import tallyback.app.WrongUse;
import tallyback.log.LogFailed;
import tallyback.log.LogRefused;

/**
 * Which failures of an answer are told in words, each with its remedy, and by which status; any
 * other is a fault of the program, and goes on to whoever catches those. Pages are told {@code
 * {"says": [LINE, ...]}}, readers the lines as plain text. Immutable.
 */
final class Failures {

  /** 400 for what was asked wrongly, 500 for what went wrong here. */
  static final Failures USUAL =
      new Failures(
          List.of(
              new Kind(WrongUse.class, 400),
              new Kind(BadMessage.class, 400),
              new Kind(LogRefused.class, 400),
              new Kind(MachineFailed.class, 500),
              new Kind(LogFailed.class, 500)));

  private record Kind(Class<? extends RuntimeException> failure, int status) {}

  private final List<Kind> kinds;

  private Failures(List<Kind> kinds) {
    this.kinds = kinds;
  }

  /** The same, with a kind of failure that is told by a status of its own. */
  Failures with(Class<? extends RuntimeException> failure, int status) {
    return new Failures(
        Stream.concat(Stream.of(new Kind(failure, status)), kinds.stream()).toList());
  }

  /** An answer whose failures a page is told. */
  Handler toPage(Handler handler) {
    return told(handler, Failures::say);
  }

  /** An answer whose failures somebody reads in its place. */
  Handler toReader(Handler handler) {
    return told(
        handler, (context, text) -> context.contentType("text/plain; charset=utf-8").result(text));
  }

  private Handler told(Handler handler, BiConsumer<Context, String> tell) {
    return context -> {
      try {
        handler.handle(context);
      } catch (RuntimeException e) {
        context.status(status(e));
        tell.accept(context, words(e));
      }
    };
  }

  private int status(RuntimeException failure) {
    return kinds.stream()
        .filter(kind -> kind.failure().isInstance(failure))
        .findFirst()
        .orElseThrow(() -> failure)
        .status();
  }

  private static String words(RuntimeException failure) {
    return failure instanceof WrongUse wrong
        ? String.join("\n", wrong.lines())
        : String.valueOf(failure.getMessage());
  }

  /** Tells a page something instead of what it asked for, by the status that is set. */
  static void say(Context context, String text) {
    ObjectNode says = JsonNodeFactory.instance.objectNode();
    text.lines().forEach(says.putArray("says")::add);
    context.contentType("application/json; charset=utf-8").result(says.toString());
  }
}

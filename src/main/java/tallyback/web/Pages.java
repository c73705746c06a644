package tallyback.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayDeque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The pages that are open. One of them listens; the others watch, and may take over. Thread rule:
 * any thread; nothing here waits.
 */
final class Pages {

  /** Watching screens are few; more than this is somebody who opens connections for fun. */
  static final int MOST = 8;

  /** So much of what was told is shown to a page that comes later. */
  private static final int MOST_RECENT = 12;

  private final Set<PageLink> links = new LinkedHashSet<>();
  private final ArrayDeque<ObjectNode> recent = new ArrayDeque<>();
  private @Nullable PageLink listening;
  private @Nullable ObjectNode board;
  private @Nullable ObjectNode answers;
  private @Nullable ObjectNode noise;

  /** Somebody has connected; false when there are too many. */
  synchronized boolean add(PageLink link) {
    return links.size() < MOST && links.add(link);
  }

  synchronized void remove(PageLink link) {
    links.remove(link);
    if (listening == link) {
      listening = null;
      tellEachItsPart();
    }
  }

  synchronized int count() {
    return links.size();
  }

  synchronized List<PageLink> all() {
    return List.copyOf(links);
  }

  /** The page that listens, or null. */
  synchronized @Nullable PageLink listening() {
    return listening;
  }

  /**
   * A page wants to listen.
   *
   * @param takeOver whether another is to stop for it
   * @return whether it does now
   */
  synchronized boolean listen(PageLink link, boolean takeOver) {
    PageLink now = listening;
    if (now != null && now != link && !takeOver && now.isOpen() && !sameTab(now, link)) {
      return false;
    }
    listening = link;
    tellEachItsPart();
    return true;
  }

  /** A page stops to listen, and watches. */
  synchronized void watch(PageLink link) {
    if (listening == link) {
      listening = null;
      tellEachItsPart();
    }
  }

  /** A tab that lost its connection comes back before the old one is known to be gone. */
  private static boolean sameTab(PageLink one, PageLink other) {
    PageLink.Hello hello = one.hello();
    return hello != null && hello.equals(other.hello());
  }

  private void tellEachItsPart() {
    for (PageLink link : links) {
      if (link.hello() != null) {
        link.send(part(link));
      }
    }
  }

  private ObjectNode part(PageLink link) {
    String part = listening == link ? "listens" : listening == null ? "free" : "watches";
    return Messages.of("part").put("part", part);
  }

  /** Shows a page all there is to see. */
  synchronized void show(PageLink link) {
    recent.forEach(link::send);
    if (board != null) {
      link.send(board);
    }
    if (answers != null) {
      link.send(answers);
    }
    if (noise != null) {
      link.send(noise);
    }
    link.send(part(link));
  }

  synchronized void told(ObjectNode message) {
    recent.add(message);
    if (recent.size() > MOST_RECENT) {
      recent.remove();
    }
    sendAll(message);
  }

  synchronized void board(ObjectNode message) {
    board = message;
    sendAll(message);
  }

  synchronized void answers(ObjectNode message) {
    answers = message;
    sendAll(message);
  }

  synchronized void noise(ObjectNode message) {
    noise = message;
    sendAll(message);
  }

  synchronized void sendAll(ObjectNode message) {
    links.stream().filter(link -> link.hello() != null).forEach(link -> link.send(message));
  }

  /** Which way to be heard was ordered: of the page that listens, or of all while none does. */
  synchronized void way(ObjectNode message) {
    if (listening != null) {
      listening.send(message);
    } else {
      sendAll(message);
    }
  }

  /** Sends to the page that listens, if there is one. */
  synchronized void sendListening(ObjectNode message) {
    if (listening != null) {
      listening.send(message);
    }
  }
}

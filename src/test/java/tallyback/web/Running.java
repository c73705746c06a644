package tallyback.web;

/**
 * A server that listens, on a thread of its own; closing waits until what was said last is noted.
 */
record Running(PageServer server, Thread thread) implements AutoCloseable {

  /** Lets a server listen. That it fails is told by its page and its health. */
  static Running start(PageServer server) {
    Thread thread =
        new Thread(
            () -> {
              try {
                server.run();
              } catch (InterruptedException | RuntimeException e) {
                // Whoever asks for its health is told.
              }
            },
            "server-run");
    thread.start();
    return new Running(server, thread);
  }

  @Override
  public void close() {
    server.stop();
    try {
      thread.join();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    server.close();
  }
}

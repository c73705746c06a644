package tallyback.speech.program;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import tallyback.speech.SecondFailed;

/** A command as people write it, divided into program and arguments. No shell has a part in it. */
final class CommandLine {

  private static final Pattern PART = Pattern.compile("\"([^\"]*)\"|([^\\s\"]+)");

  private CommandLine() {}

  static List<String> of(String command) throws SecondFailed {
    String text = command.strip();
    if (isFile(text)) {
      return List.of(text);
    }
    Matcher part = PART.matcher(text);
    List<String> parts =
        Stream.iterate(part.find(), found -> found, found -> part.find())
            .map(found -> part.group(1) == null ? part.group(2) : part.group(1))
            .toList();
    if (parts.isEmpty() || parts.get(0).isEmpty()) {
      throw new SecondFailed("expected a program, found \"" + command + "\"; name one, or none");
    }
    return parts;
  }

  private static boolean isFile(String text) {
    try {
      return Files.isRegularFile(Path.of(text));
    } catch (InvalidPathException e) {
      return false;
    }
  }
}

package tallyback.phrase;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Any one file of the JSpeech Grammar Format as a graph of words, for measurements. */
public final class JsgfGrammar {

  private static final Pattern CAPITALS = Pattern.compile("<NULL>|<VOID>|[A-Z]+");

  private JsgfGrammar() {}

  /**
   * Reads a grammar; what it may hear is what any of its public rules stands for.
   *
   * @param file the file; capital letters are read as small ones
   * @return everything that may be said
   * @throws IllegalArgumentException naming every fault, or that no rule is public
   * @throws IOException if it can't be read
   */
  public static WordGraph read(Path file) throws IOException {
    return of(file.toString(), Files.readString(file, StandardCharsets.UTF_8));
  }

  static WordGraph of(String name, String text) {
    int header = text.indexOf(';') + 1;
    String grammar =
        text.substring(0, header)
            + CAPITALS
                .matcher(text.substring(header))
                .replaceAll(
                    found ->
                        found.group().startsWith("<")
                            ? found.group()
                            : found.group().toLowerCase(Locale.ROOT));
    JsgfFile read = JsgfReader.read(name, grammar);
    if (!read.faults().isEmpty()) {
      throw new IllegalArgumentException(lines(read.faults()));
    }
    List<String> open =
        read.rules().stream().filter(JsgfRule::isPublic).map(JsgfRule::name).toList();
    if (open.isEmpty()) {
      throw new IllegalArgumentException(name + ": expected a public rule, found none");
    }
    String root = "any-of-the-public-rules";
    String all = open.stream().map(rule -> "<" + rule + ">").collect(Collectors.joining(" | "));
    JsgfFile whole = JsgfReader.read(name, grammar + "\n<" + root + "> = " + all + ";\n");
    try {
      return CompiledGrammar.compile(List.of(whole), root).graph();
    } catch (UnusableGrammarException e) {
      throw new IllegalArgumentException(lines(e.faults()), e);
    }
  }

  private static String lines(List<GrammarFault> faults) {
    return faults.stream().map(GrammarFault::toString).collect(Collectors.joining("\n"));
  }
}

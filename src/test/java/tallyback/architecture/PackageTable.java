package tallyback.architecture;

import static java.util.stream.Collectors.joining;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;

/**
 * The table of packages in DEVELOPERS.md, as code: each package below {@code tallyback} and what it
 * may use of the others. A package always may use itself and what lies below it.
 */
final class PackageTable {
  static final String BASE = "tallyback";

  /** The domain: no input or output, no clock, no chance. */
  static final List<String> PURE = List.of("model", "trade", "books", "reconcile", "history");

  private static final Map<String, List<Use>> TABLE = table();

  private PackageTable() {}

  /** A part of the code that a package may use. */
  record Use(String description, DescribedPredicate<JavaClass> classes) {
    static Use whole(String name) {
      return new Use(name, DescribedPredicate.describe(name, type -> name.equals(partOf(type))));
    }

    /** Only the package itself, without what lies below it: a port without its adapters. */
    static Use port(String name) {
      String packageName = BASE + "." + name;
      return new Use(
          "port " + name,
          DescribedPredicate.describe(
              "port " + name,
              type -> type.getBaseComponentType().getPackageName().equals(packageName)));
    }

    static Use only(String className) {
      String fullName = BASE + "." + className;
      return new Use(
          className,
          DescribedPredicate.describe(
              className,
              type -> {
                String name = type.getBaseComponentType().getFullName();
                return name.equals(fullName) || name.startsWith(fullName + "$");
              }));
    }
  }

  static List<String> packages() {
    return List.copyOf(TABLE.keySet());
  }

  static List<Use> usesOf(String packageName) {
    return Objects.requireNonNull(TABLE.get(packageName), packageName);
  }

  static String describeUsesOf(String packageName) {
    List<Use> uses = usesOf(packageName);
    return uses.isEmpty()
        ? "nothing else of ours"
        : uses.stream().map(Use::description).collect(joining(", "));
  }

  static boolean isOurs(JavaClass type) {
    String name = type.getBaseComponentType().getPackageName();
    return name.equals(BASE) || name.startsWith(BASE + ".");
  }

  /** The package of the table that a class of ours belongs to; empty for the base package. */
  static String partOf(JavaClass type) {
    String name = type.getBaseComponentType().getPackageName();
    if (!name.startsWith(BASE + ".")) {
      return "";
    }
    String below = name.substring(BASE.length() + 1);
    int dot = below.indexOf('.');
    return dot < 0 ? below : below.substring(0, dot);
  }

  private static Map<String, List<Use>> table() {
    Map<String, List<Use>> table = new TreeMap<>();
    table.put("model", List.of());
    table.put("trade", whole("model"));
    table.put("plan", whole("model"));
    table.put("books", whole("model", "plan"));
    table.put("reconcile", whole("model", "trade", "plan", "books"));
    table.put("history", whole("model", "trade", "plan", "books", "reconcile"));
    table.put("planning", whole("model", "trade", "plan", "books", "reconcile", "phrase"));
    table.put("phrase", whole("model", "plan"));
    table.put("audio", List.of());
    table.put("speech", whole("audio", "phrase"));
    table.put("voice", whole("audio"));
    table.put("log", whole("model", "plan"));
    table.put("photo", List.of());
    table.put(
        "dialogue",
        List.of(
            Use.whole("model"),
            Use.whole("plan"),
            Use.whole("phrase"),
            Use.whole("books"),
            Use.whole("reconcile"),
            Use.port("log"),
            Use.port("speech"),
            Use.only("audio.Clip")));
    table.put(
        "review",
        List.of(
            Use.whole("model"),
            Use.whole("plan"),
            Use.whole("books"),
            Use.whole("reconcile"),
            Use.whole("phrase"),
            Use.only("dialogue.ReadAlone")));
    table.put(
        "report",
        List.of(
            Use.whole("model"),
            Use.whole("plan"),
            Use.whole("books"),
            Use.whole("reconcile"),
            Use.whole("review"),
            Use.whole("history"),
            Use.whole("planning"),
            Use.only("phrase.CardSection")));
    table.put(
        "export",
        List.of(
            Use.whole("model"),
            Use.whole("plan"),
            Use.whole("books"),
            Use.whole("reconcile"),
            Use.whole("report"),
            Use.port("log"),
            Use.only("phrase.ReadBackText"),
            Use.only("phrase.ReadBack")));
    // Writing the record is a use case, so the use cases know the reports and not the other way.
    table.put("app", wholeOf(table.keySet()));
    table.put("web", wholeOf(table.keySet()));
    // The commands start the page; the page knows nothing of the commands.
    table.put("cli", wholeOf(table.keySet()));
    return table;
  }

  private static List<Use> whole(String... names) {
    return Arrays.stream(names).map(Use::whole).toList();
  }

  private static List<Use> wholeOf(Set<String> names) {
    return names.stream().map(Use::whole).toList();
  }
}

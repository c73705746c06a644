package tallyback.report.owner;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What nobody said, gathered by what it is that was not said, in plain words. What is not known
 * here stands as it is: nothing is left out.
 */
final class Unchecked {

  private static final String NOT_SAID = "Nobody said";
  private static final Pattern GROUPS = Pattern.compile("\\b(\\d+ groups?)$");
  private static final Pattern IN_BRACKETS = Pattern.compile(" \\([^()]*\\)");

  /**
   * One sort of silence.
   *
   * @param words how the reconciler says it, the first group what it is about
   * @param heading how it is said here
   */
  private record Sort(Pattern words, String heading) {
    static Sort of(String words, String heading) {
      return new Sort(Pattern.compile(words), heading);
    }
  }

  private static final List<Sort> SORTS =
      List.of(
          Sort.of(
              "whether the (.+) went in and came out again",
              "Whether these, which only help during the work, went in and came out again"),
          Sort.of("(.+): nobody mentioned it", "Not mentioned at all"),
          Sort.of(
              "(.+): step done, nobody counted off and on",
              "Said to be done, but not counted off and on again"),
          Sort.of("(.+): how tight \\(.*\\)", "How tight they are"),
          Sort.of(
              "torque against the manual, whose figure is not in the plan: (.+)",
              "Whether they are as tight as the maker's manual asks"),
          Sort.of(
              "overload, not judged: (.+)",
              "Not worked out: whether bolt and thread bear what they were tightened to"),
          Sort.of("(.+): whether in the maker's sequence", "Whether in the maker's order"),
          Sort.of("(.+): with which wrench", "Tightened, but not said with which wrench"),
          Sort.of(
              "(.+): level at the cold mark after the test run",
              "The level, read cold after the test run"),
          Sort.of("(.+): whether it is full \\(.*\\)", "Whether it is full"),
          Sort.of("(.+): sum against capacity \\(.*\\)", "Whether as much is in as belongs in"),
          Sort.of("(.+: .+) \\(the plan gives a limit\\)", "Not measured"));

  private static final Pattern WASTE = Pattern.compile("(.+): where the (.+) caught went");
  private static final String WASTE_HEADING = "Where the old fluid went";
  private static final Pattern AGAIN =
      Pattern.compile("(.+): tightened again after (.+) \\(tell the owner\\)");

  /**
   * Things of which the same was not said.
   *
   * @param heading what was not said
   * @param things of what
   */
  record Group(String heading, List<String> things) {

    /** Copies the list. */
    Group {
      things = List.copyOf(things);
    }
  }

  /**
   * What has to be tightened again.
   *
   * @param what the fasteners
   * @param after when
   */
  record Again(String what, String after) {}

  private Unchecked() {}

  /**
   * The groups, in the order in which their first thing came.
   *
   * @param unchecked what nobody said, as the reconciler says it
   * @param wasteTold whether it stands elsewhere where the old fluid went
   */
  static List<Group> groups(List<String> unchecked, boolean wasteTold) {
    Map<String, List<String>> groups = new LinkedHashMap<>();
    for (String words : unchecked) {
      Matcher waste = WASTE.matcher(words);
      if (waste.matches()) {
        if (!wasteTold) {
          add(groups, WASTE_HEADING, waste.group(1) + ", " + waste.group(2));
        }
      } else if (!AGAIN.matcher(words).matches()) {
        sort(groups, words);
      }
    }
    return groups.entrySet().stream()
        .map(each -> new Group(each.getKey(), each.getValue()))
        .toList();
  }

  private static void sort(Map<String, List<String>> groups, String words) {
    for (Sort sort : SORTS) {
      Matcher matcher = sort.words().matcher(words);
      if (matcher.matches()) {
        String things = IN_BRACKETS.matcher(matcher.group(1)).replaceAll("");
        add(groups, sort.heading(), GROUPS.matcher(things).replaceAll("$1 of bolts and nuts"));
        return;
      }
    }
    add(groups, NOT_SAID, words);
  }

  private static void add(Map<String, List<String>> groups, String heading, String thing) {
    groups.computeIfAbsent(heading, each -> new ArrayList<>()).add(thing);
  }

  /** What the owner must have tightened again later. */
  static List<Again> again(List<String> unchecked) {
    List<Again> again = new ArrayList<>();
    for (String words : unchecked) {
      Matcher matcher = AGAIN.matcher(words);
      if (matcher.matches()) {
        again.add(new Again(matcher.group(1), matcher.group(2)));
      }
    }
    return List.copyOf(again);
  }
}

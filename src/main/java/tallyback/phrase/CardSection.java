package tallyback.phrase;

import java.util.List;

/**
 * One topic of the phrase card.
 *
 * @param topic what it is about
 * @param examples phrases that can be said, with the plan's own names
 */
public record CardSection(String topic, List<String> examples) {

  /** Copies its list. */
  public CardSection {
    examples = List.copyOf(examples);
  }
}

package tallyback.phrase;

import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement;

/**
 * What a phrase means.
 *
 * @param words the phrase in full, lower case, numbers as words
 * @param statement the statement; may be one that is only spoken (see {@link Statement#notable()})
 * @param ago how long ago it happened, when that was said with it ("twenty minutes ago"), or null
 */
public record Meaning(String words, Statement statement, @Nullable Amount ago) {}

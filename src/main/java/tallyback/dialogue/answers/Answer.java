package tallyback.dialogue.answers;

import tallyback.phrase.Question;

/**
 * What is answered to a question.
 *
 * @param question the question
 * @param spoken short, for the ear: plain words, its subject first
 * @param shown the same and more, for the eye; one line or several, figures with their units
 */
public record Answer(Question question, String spoken, String shown) {}

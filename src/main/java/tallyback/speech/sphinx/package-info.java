/**
 * The adapter to the Sphinx4 recogniser library, the only place that sees it. One way in: {@link
 * tallyback.speech.sphinx.SphinxRecognisers}.
 *
 * <p>The library's high-level interface is not used: it drops words it has no pronunciation for,
 * recompiles the grammar at every start and cuts utterances badly in noise. Here its acoustic
 * model, front end and search are put together by hand around a search graph of our own.
 */
@org.jspecify.annotations.NullMarked
package tallyback.speech.sphinx;

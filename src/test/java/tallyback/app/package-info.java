/** Tests of the use cases with the real recogniser and real data files. */
@org.jspecify.annotations.NullMarked
package tallyback.app;

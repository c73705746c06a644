/** Plans before and after the job: what one needs, what is wrong with one, where one comes from. */
@NullMarked
package tallyback.planning;

import org.jspecify.annotations.NullMarked;

/** Tests of photos as files. */
@NullMarked
package tallyback.photo;

import org.jspecify.annotations.NullMarked;

package heap

// #include <malloc.h>
//
// // Says nothing: where the library knows no such setting, memory stays as it is.
// static void hf_map_from(int bytes) {
// #ifdef M_MMAP_THRESHOLD
// 	mallopt(M_MMAP_THRESHOLD, bytes);
// #endif
// }
import "C"

// mappedBytes is the size from which memory is mapped for itself, so that it
// goes back to the system when it is freed. It is the GNU C library's own
// setting; setting it stops the library from raising it as big pieces are freed
// (mallopt(3), M_MMAP_THRESHOLD), after which the holes that pictures leave
// among smaller things stay with the process.
const mappedBytes = 128 << 10

func returnPictures() { C.hf_map_from(mappedBytes) }

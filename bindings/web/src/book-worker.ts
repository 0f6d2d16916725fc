// The worker that owns the books. A page makes it with `new Worker(new URL("…/book-worker.js", …))`.

import { books } from "./books.ts";
import { serve } from "./serve.ts";

serve(books);

/* What the scripts of a guide's page find things with. It comes first, and strictness goes for all of them. */
"use strict";
const one = (css, root = document) => root.querySelector(css), all = (css, root = document) => [...root.querySelectorAll(css)];

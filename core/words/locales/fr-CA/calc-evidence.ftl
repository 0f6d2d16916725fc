### The evidence of whether the liquid is out: each piece, and what to do next.
calc-empty-caution = Modèle non éprouvé sur le terrain. Il pèse ce qui a été noté et ne connaît pas le wagon. Une personne décide et signe; un wagon expédié comme résidu avec du liquide blesse la prochaine personne qui l’ouvre.

## Pieces

calc-empty-rod-bottom = La tige est à son fond : pas de liquide à sa hauteur. Un reste de liquide sous son bout, ou plus loin sur une pente, ne se voit pas.
calc-empty-rod-liquid = La tige trouve du liquide.
calc-empty-valve-vapor = Vapeur au robinet de liquide : pas de liquide à la hauteur du bout du tube. Ce qui est dessous ne peut pas venir.
calc-empty-valve-liquid = Du liquide sort du robinet de liquide.
calc-empty-above-liquid = { $read } contre { $condenses }, où { $product } se condense à { $low } : { $margin }. C’est même au-dessus des { $highest } du liquide à cet endroit; la vapeur sèche ne peut être si haute. Du liquide plus chaud ailleurs, un gaz inerte, ou une mauvaise lecture.
calc-empty-at-saturation = { $read } contre { $condenses }, où { $product } se condense à { $low } : { $margin }. Égal ou au-dessus selon les lectures, comme dans un wagon avec du liquide.
calc-empty-below-saturation = { $read } contre { $condenses }, où { $product } se condense à { $low } : { $margin }. Au-dessous : possible pour de la vapeur sèche, et pour du liquide plus froid ailleurs.
calc-empty-wet = { $low } au bas de la citerne moins { $condenses }, où { $product } se condense à { $pressure }, donne { $superheat } de surchauffe. Moins de { $bound }, comme dans une citerne mouillée.
calc-empty-near-outside = { $low } au bas de la citerne moins { $condenses }, où { $product } se condense à { $pressure }, donne { $superheat } de surchauffe. Mais cette pression sature à moins de { $bound } des { $outside } de l’extérieur : elle ne distingue pas le mouillé du sec.
calc-empty-no-outside = { $low } au bas de la citerne moins { $condenses }, où { $product } se condense à { $pressure }, donne { $superheat } de surchauffe. Sans la température extérieure, on ne sait pas si cela distingue le mouillé du sec.
calc-empty-dry = { $low } au bas de la citerne moins { $condenses }, où { $product } se condense à { $pressure }, donne { $superheat } de surchauffe. Plus de { $bound }, comme dans une citerne sèche du modèle.
calc-empty-composition = { $low } au bas de la citerne moins { $condenses }, où { $product } se condense à { $pressure }, donne { $superheat } de surchauffe. Pour { $other }, ce serait { $most } : chercher la composition.
calc-empty-between = { $low } au bas de la citerne moins { $condenses }, où { $product } se condense à { $pressure }, donne { $superheat } de surchauffe. Entre mouillé et sec, ou trop incertain pour dire.
calc-empty-rebound = La pression a changé de { $change } en { $minutes }. Plus de { $bound } : du liquide bout dans le wagon.
calc-empty-no-rebound = La pression a changé de { $change } en { $minutes }. Pas de forte hausse; cela ne prouve rien : un reste de liquide réchauffé, ou un compresseur lent avant, n’en montre pas non plus.

## What to do next

calc-next-liquid-off = Revenir au soutirage du liquide, puis à la récupération; ne pas désaccoupler comme vide.
calc-next-again = Ensuite, faire de nouvelles lectures et peser de nouveau.
calc-next-pressure = Lire la pression au wagon avec un manomètre de faible étendue.
calc-next-low-temperature = Lire la température au bas de la citerne, dans le puits ou sous la citerne, à l’ombre.
calc-next-outside = Noter la température extérieure à l’ombre.
calc-next-liquid-valve = Entrouvrir un robinet de liquide par la conduite et voir ce qui vient : vapeur ou liquide.
calc-next-rod = Abaisser la tige de jauge jusqu’au fond.
calc-next-hold = Arrêter le compresseur, isoler le wagon et attendre 15 min : une forte hausse signifie du liquide; aucune hausse ne prouve rien.
calc-next-draw-down = Abaisser encore la pression et relire la pression et la température du bas : la surchauffe en dit plus à basse pression.
calc-next-decide = La personne qui signe regarde chaque élément ci-dessus et décide.

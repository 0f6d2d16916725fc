### Ce qu'a trouvé la vérification d'un dossier. Le code de chaque ligne est à côté et n'est jamais traduit.

## What verify prints around the lines

verify-mark-holds = valide
verify-mark-marked = note
verify-mark-broken = ROMPU
verify-all-holds = Tout est valide. { $shows }
verify-holds-with-notes =
    { $count ->
         [one] C'est valide. À lire avec la note ci-dessus. { $shows }
        *[other] C'est valide. À lire avec les { $count } notes ci-dessus. { $shows }
    }
verify-does-not-hold = Ce n'est PAS valide.
verify-shows = Cela montre ce que ces appareils ont signé, inchangé, et que le journal de l'organisation le contient. Cela ne montre ni qu'une scène était telle qu'affirmée, ni qu'un wagon est sûr.
verify-first-page-says = La première page dans cette langue :
verify-first-page-undrawn = Les pages n'ont pas été redessinées ici; ces mots reposent donc sur le scellé de l'organisation :
verify-parts = { $parts }
verify-and-more = et d'autres du même genre

## The verdict on third parties

verify-verdict-stamped = { $authority } a horodaté le journal de { $size } entrées : elles existaient au plus tard { $at }
verify-verdict-witnessed = { $name } a signé le journal de { $size } entrées le { $at } comme n'ayant fait que croître
verify-verdict-both = Au-delà de la parole de l'organisation : { $stamped }; { $witnessed }.
verify-verdict-stamp-alone = Au-delà de la parole de l'organisation : { $stamped }. Qu'il n'y ait qu'un journal repose sur sa seule parole.
verify-verdict-witness-alone = Au-delà de la parole de l'organisation : { $witnessed }. Les heures du journal reposent sur sa seule parole, sauf l'horloge du témoin.
verify-verdict-alone = Les heures et l'intégralité reposent sur la seule parole de l'organisation.
verify-verdict-devices = Quels appareils sont les siens, et ce qu'ils peuvent faire, repose sur la seule parole de l'organisation.
verify-strict-stamp = aucun horodatage ne mène à une racine donnée avec --tsa-root
verify-strict-witness = aucun témoin donné avec --witness n'a signé de point de contrôle ici
verify-stamp-unchecked = l'horodatage du point de contrôle de taille { $size } n'a pas été vérifié : { $why }
verify-stamp-forged = l'horodatage du point de contrôle de taille { $size } n'est pas valide : { $why }
verify-stamp-no-root = le point de contrôle de taille { $size } existait au plus tard { $at }, sur la parole non vérifiée de { $authority } : aucune racine donnée (--tsa-root)
verify-stamp = le point de contrôle de taille { $size }, et chaque entrée qu'il couvre, existait au plus tard { $at } : horodaté par { $authority }
verify-clocks-differ = { $what }; le journal a reçu une entrée qu'il couvre { $minutes } min plus tard : une des deux horloges était fausse
verify-witness = { $name } a signé le point de contrôle de taille { $size } le { $at }
verify-witness-older = { $name } a signé le point de contrôle de taille { $size } le { $at }, qui ne couvre pas les entrées les plus récentes
verify-witness-forged = une ligne au nom de { $name } n'est pas valide
verify-no-witness = aucun point de contrôle ici n'est signé par { $names }

## The seal and the attachments

verify-missing = { $name } est absent
verify-no-text = { $name } est absent, ou n'est pas du texte
verify-about-file = { $name } : { $why }
verify-wrong-key = le dossier est scellé par la clé { $key }, non par la clé donnée
verify-wrong-seal = le dossier est scellé par une autre clé, non par la clé donnée
verify-altered-seal = le scellé n'est pas valide : { $why }
verify-seal = tout le fichier est tel que scellé par l'organisation
verify-altered-attachment = { $name } n'est pas le fichier scellé
verify-removed-attachment = { $name } a été scellé et a disparu
verify-added-attachment = { $name } n'a pas été scellé
verify-edited-pages = les pièces jointes sont celles qui furent scellées, mais pas le fichier autour : ce que montrent les pages a été changé, ou quelque chose a été ajouté au fichier
verify-seal-visits = la liste des visites du scellé n'est pas celle des entrées scellées
verify-seal-entries = le nombre ou la racine du scellé n'est pas celui des entrées scellées
verify-seal-time = l'heure du scellé n'est pas celle des entrées scellées
verify-older-rules = le scellé demande les règles d'une version antérieure à celle qui a fait ce dossier : ce qui vient de règles ultérieures n'a pas été vérifié
verify-later-rules = le scellé demande les règles de la version { $fold }. Ce programme connaît celles jusqu'à { $own } et a vérifié selon elles
verify-foreign-attachment = { $name } a été scellé avec le reste. Aucune entrée ne le nomme, et il ne prouve rien sur ce séjour
verify-procedure = procedure.toml est la procédure selon laquelle le séjour a commencé (SHA-256 { $text })
verify-procedure-words = procedure.toml est la procédure selon laquelle le séjour a commencé (SHA-256 { $text }), et procedure.ftl, ses phrases dans la langue des pages (SHA-256 { $words })
verify-other-procedure = { $name } n’est pas la procédure selon laquelle le séjour a commencé
verify-other-fold = établi selon les règles d'une autre version ({ $fold }, celle de ce programme est { $own }). Sa vue n'a pas été comparée
verify-view = le registre montré est celui qui résulte des entrées
verify-altered-view = view.json n'est pas ce qui résulte des entrées avec cette version du programme

## Entries and devices

verify-entries =
    { $count ->
         [one] { $count } entrée porte la signature de son appareil
        *[other] { $count } entrées portent les signatures de leurs appareils
    }
verify-altered-entry = entrée { $number } de la liste « { $list } » : { $why }
verify-foreign-entry = l'entrée { $entry } concerne { $about }, non { $list }
verify-not-this-stays = l'entrée { $entry } concerne { $about }, qui n'est pas de ce séjour
verify-removed-entry =
    { $count ->
         [one] { $count } entrée que liste le journal est absente, dont { $entries }
        *[other] { $count } entrées que liste le journal sont absentes, dont { $entries }
    }
verify-fewer-entries = { $sealed } entrées furent scellées, { $here } sont ici
verify-chain-gap = les entrées { $from } à { $to } de l'appareil { $device } ne sont pas au bureau
verify-chain-removed = les entrées { $from } à { $to } de la chaîne de l'appareil { $device } ont disparu
verify-chain-twice = { $count } entrées de l'appareil { $device } portent le numéro { $number }
verify-chain-other =
    { $count ->
         [one] { $count } entrée nomme comme précédente une autre que celle connue
        *[other] { $count } entrées nomment comme précédente une autre que celle connue
    }
verify-chains =
    { $count ->
         [one] la chaîne de { $count } appareil est complète ou expliquée
        *[other] les chaînes de { $count } appareils sont complètes ou expliquées
    }
verify-claimed-after =
    { $count ->
         [one] { $count } entrée déclare une heure postérieure à son arrivée au bureau : l'horloge de l'appareil était fausse, ou celle du bureau
        *[other] { $count } entrées déclarent une heure postérieure à leur arrivée au bureau : l'horloge de l'appareil était fausse, ou celle du bureau
    }
verify-forged-certificate = un certificat n'est pas valide : { $why }
verify-forged-device =
    { $count ->
         [one] { $count } entrée est signée par l'appareil { $device }, que l'organisation n'a pas certifié
        *[other] { $count } entrées sont signées par l'appareil { $device }, que l'organisation n'a pas certifié
    }
verify-devices =
    { $count ->
         [one] { $count } appareil a un certificat de l'organisation
        *[other] { $count } appareils ont un certificat de l'organisation
    }
verify-uncertified-device =
    { $count ->
         [one] { $count } entrée est signée par l'appareil { $device }, dont il n'y a pas de certificat ici : elle est conservée et ne compte pas
        *[other] { $count } entrées sont signées par l'appareil { $device }, dont il n'y a pas de certificat ici : elles sont conservées et ne comptent pas
    }
verify-revoked-device = { $late } des { $count } entrées de « { $name } » ({ $device }) sont arrivées après sa révocation ({ $at }) : elles sont conservées, ce qu'elles disent de leur heure ne prouve rien
verify-expired-device = { $late } des { $count } entrées de « { $name } » ({ $device }) déclarent une heure postérieure à l'expiration de son certificat ({ $until }) : elles sont conservées et ne comptent pas

## The organization's keys

verify-keys =
    { $count ->
         [one] la racine de l'organisation a dit { $count } chose de ses clés. Ce qui est ici est signé par { $named } en leur temps
        *[other] la racine de l'organisation a dit { $count } choses de ses clés. Ce qui est ici est signé par { $named } en leur temps
    }
verify-keys-twice = ce que le dossier apporte sur les clés de l'organisation dit une chose deux fois
verify-keys-brought = ce que le dossier apporte sur les clés de l'organisation : { $why }
verify-keys-beside = à côté de ce qui a été donné sur les clés de l'organisation : { $why }
verify-expired-key = { $what } : { $why }
verify-thing-seal = le scellé
verify-thing-certificate = un certificat
verify-thing-receipt = un accusé de réception
verify-thing-checkpoint = un point de contrôle
verify-withdrawn-as-replaced = remplacée
verify-withdrawn-as-lost = perdue
verify-withdrawn-as-stolen = volée
verify-withdrawn-name = la clé { $key }, retirée comme { $why } le { $at }
verify-withdrawn-after = { $what } sous { $name } : signé après
verify-withdrawn-before = { $what } sous { $name } : signé avant, c'est valide
verify-stolen-no-checkpoint = { $what } sous { $name }, et il n'y a aucun point de contrôle valide
verify-stolen-no-vouch = { $what } sous { $name }; la racine ne répond de rien de ce qu'elle a signé
verify-stolen-within = { $what } sous { $name }; son journal est dans ce dont la racine répond ({ $count } entrées)
verify-stolen-outside = { $what } sous { $name }; son journal n'est pas celui dont la racine répond ({ $count } entrées)
verify-stolen-not-shown = { $what } sous { $name }. Qui avait la clé pouvait le faire : rien ici ne montre que son journal de { $size } entrées est le début des { $vouched } dont la racine répond. Le bureau peut imprimer la preuve du point de contrôle (farsiding checkpoint --from { $size }), à donner avec --against

## The log

verify-log =
    { $count ->
         [one] le journal de { $count } entrée la contient à sa place
        *[other] le journal de { $count } entrées contient chacune à sa place
    }
verify-forged-checkpoint = un point de contrôle n'est pas valide : { $why }
verify-no-checkpoint = il n'y a pas de point de contrôle
verify-log-fork = les points de contrôle de taille { $old } et { $new } ne peuvent être tous deux d'un même journal
verify-unlogged-place = le journal ne contient pas l'entrée { $entry } au numéro { $number }
verify-unlogged-about = le journal dit que l'entrée { $entry } concerne { $told }; elle concerne { $about }
verify-unlogged-entry = l'entrée { $entry } n'est dans aucun journal
verify-log-order = les numéros ou les heures du journal reculent au numéro { $number }
verify-reordered = la liste « { $list } » n'est pas dans l'ordre où le bureau l'a reçue
verify-given-forged = le point de contrôle donné n'est pas valide : { $why }
verify-given-other-log = le point de contrôle donné est du journal { $theirs }, celui du dossier de { $own }
verify-given-own = le point de contrôle donné est celui du dossier, de taille { $size }
verify-given-two-logs = deux points de contrôle de taille { $size } diffèrent : le bureau a montré deux journaux
verify-given-no-proof = le point de contrôle donné a la taille { $theirs }, celui du dossier { $own }. Pour les comparer, le bureau doit ajouter une preuve de cohérence
verify-given-same-log = le point de contrôle donné, de taille { $size }, est du même journal
verify-older-packet =
    { $count ->
         [one] le journal a crû de { $count } entrée depuis le dernier point de contrôle de ce dossier. Ce qui est arrivé depuis n'est pas ici
        *[other] le journal a crû de { $count } entrées depuis le dernier point de contrôle de ce dossier. Ce qui est arrivé depuis n'est pas ici
    }
verify-time-stamp = l'horodatage d'un tiers nomme le point de contrôle de taille { $size }. À vous de juger qui l'a donné
verify-time-stamp-other = un horodatage n'est pas du point de contrôle de taille { $size }
verify-last-entry = { $name } prouve la dernière entrée du séjour à qui connaît C2SP tlog-proof
verify-last-entry-not = { $name } ne prouve pas la dernière entrée du séjour
verify-last-entry-fork = { $name } mène à un point de contrôle de taille { $size } qui n'est aucun de ceux du dossier

## Completeness and times

verify-whole = les { $count } entrées que le journal de { $size } entrées contient de ce séjour sont ici
verify-whole-newest = les { $count } entrées que le journal de { $size } entrées contient de ce séjour sont ici, la plus récente reçue { $at }
verify-no-heads = le point de contrôle du journal ne dit pas combien il y a d'entrées d'un séjour : que toutes y soient repose sur la parole de l'organisation
verify-no-head = le nombre d'entrées que le journal contient de { $about } n'est pas prouvé : que toutes y soient repose sur la parole de l'organisation
verify-other-head = ce qui est dit de l'ensemble de { $about } n'est pas ce que fixe le point de contrôle de taille { $size }
verify-other-entries = les entrées ici ne sont pas les { $count } que le journal contient de { $about }
verify-removed-of-visit = le journal contient { $count } entrées de { $about }, { $here } sont ici
verify-absent-visit = une entrée dit que la visite { $visit } est du même séjour. Ses entrées ne sont pas ici
verify-unjoined-visit = aucune entrée ne dit que la visite { $visit } est d'un même séjour que les autres
verify-photo-elsewhere =
    { $count ->
         [one] { $count } photographie de ce séjour est aussi nommée par des entrées d'autres séjours
        *[other] { $count } photographies de ce séjour sont aussi nommées par des entrées d'autres séjours
    }
verify-times =
    { $count ->
         [one] { $count } entrée nomme un point de contrôle de ce journal que son appareil avait vu : elle a été faite après
        *[other] { $count } entrées nomment un point de contrôle de ce journal que leur appareil avait vu : elles ont été faites après
    }
verify-other-log-seen =
    { $count ->
         [one] { $count } entrée nomme un point de contrôle que ce journal ne continue pas : le journal a été réécrit ou restauré d'une sauvegarde, ou l'appareil l'a inventé
        *[other] { $count } entrées nomment un point de contrôle que ce journal ne continue pas : le journal a été réécrit ou restauré d'une sauvegarde, ou l'appareil l'a inventé
    }
verify-claimed-before-seen =
    { $count ->
         [one] { $count } entrée déclare une heure antérieure à celle d'un point de contrôle que son appareil avait déjà vu
        *[other] { $count } entrées déclarent une heure antérieure à celle d'un point de contrôle que leur appareil avait déjà vu
    }
verify-claimed-before-certificate =
    { $count ->
         [one] { $count } entrée déclare une heure antérieure au certificat de son appareil
        *[other] { $count } entrées déclarent une heure antérieure au certificat de leur appareil
    }
verify-received-long-after =
    { $count ->
         [one] { $count } entrée est arrivée plus de sept jours après l'heure qu'elle déclare. Avant cela, seul son appareil peut en témoigner
        *[other] { $count } entrées sont arrivées plus de sept jours après l'heure qu'elles déclarent. Avant cela, seul leur appareil peut en témoigner
    }

## Receipts and photographs

verify-receipts =
    { $count ->
         [one] { $count } accusé de réception est valide. Il couvre { $here } des { $all } entrées du séjour
        *[other] { $count } accusés de réception sont valides. Ils couvrent { $here } des { $all } entrées du séjour
    }
verify-backdated-receipt = un accusé de réception dit { $at }, mais le journal a reçu une entrée qu'il couvre le { $received }
verify-names =
    { $count ->
         [one] { $count } nom est celui que son entrée engage
        *[other] { $count } noms sont ceux que leurs entrées engagent
    }
verify-altered-name = le nom pour { $named } n'est pas celui que l'entrée engage
verify-foreign-name = le nom pour { $named } n'est celui d'aucune personne nommée par les entrées
verify-photos =
    { $count ->
         [one] { $count } photographie est octet pour octet celle qui est signée
        *[other] { $count } photographies sont octet pour octet celles qui sont signées
    }
verify-photo-length = { $name } a une autre longueur que celle signée
verify-other-length = une entrée donne une autre longueur que celle de { $name }. Son empreinte est juste
verify-swapped-photo = sous le nom { $name } se trouve la photographie { $digest }
verify-altered-photo = les octets de { $name } ne sont pas ceux qui sont signés
verify-absent-photo =
    { $count ->
         [one] { $count } photographie n'était pas au bureau lors de la création du dossier
        *[other] { $count } photographies n'étaient pas au bureau lors de la création du dossier
    }
verify-absent-photo-or =
    { $count ->
         [one] { $count } photographie n'était pas au bureau lors de la création du dossier, ou seules des entrées qui ne comptent pas la nomment
        *[other] { $count } photographies n'étaient pas au bureau lors de la création du dossier, ou seules des entrées qui ne comptent pas les nomment
    }

## The pages

verify-pages = redessinées à partir de ce qui est joint, les pages sont celles-ci, octet pour octet
verify-pages-no-seal = les pages n'ont pas été redessinées : aucun scellé valide ne dit selon quelle mise en page elles le furent
verify-pages-other = les pages n'ont pas été redessinées (mise en page { $layout }, règles { $fold }; celles de ce programme sont { $own_layout } et { $own_fold }) : ce qu'elles disent au-delà des pièces jointes repose sur la parole de l'organisation
verify-pages-language = les pages n'ont pas été redessinées : ce programme n'a pas de mots dans la langue { $language }
verify-pages-not-drawn = les pages n'ont pas été redessinées, car ce qui est joint n'est pas valide
verify-pages-cannot = aucune page ne peut être dessinée à partir de ce qui est joint : { $why }
verify-pages-unreadable = les pages ne peuvent être lues
verify-page-differs = la page { $page } montre autre chose que ce qui est joint
verify-pages-added = les pages { $from } à { $to } ont été ajoutées
verify-pages-gone = les pages { $from } à { $to } ont disparu
verify-pages-around = le fichier n'est pas celui dessiné à partir de ce qui est joint : autour de ses pages se trouve quelque chose qu'un lecteur de PDF peut montrer

## The first page

verify-first-page = page 1 : { $what }
verify-front-differs = la page 1 dit autre chose que { $name }
verify-strange-notice = la page 1 a un avis qui n'en est pas un
verify-strange-language = la page 1 est dans une langue que sa mise en page n'a pas
verify-fact-key = la clé de l'organisation n'est pas celle qui a scellé le fichier
verify-fact-cites-nothing = « { $label } » cite le no { $number }, qui est absent
verify-fact-cites-other = « { $label } » cite le no { $number }, qui dit autre chose
verify-fact-cites-gone = « { $label } » cite le no { $number }, qui ne vaut plus
verify-fact-does-not-quote = « { $label } » ne dit pas « { $typed } » du no { $number }
verify-fact-beginning = « { $label } » ne commence pas par « { $beginning } »
verify-fact-left-out = le no { $number } dit une chose que la page 1 omet : { $kind }
verify-fact-count = il y a { $count } faits sur une chose, il en faut un : { $kind }
verify-kind-release = libération
verify-kind-hold = retenue
verify-kind-passed_over = dérogation

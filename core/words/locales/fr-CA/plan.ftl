### The plan of the fittings under the housing, drawn alike on the phone and at the office: labels of a small drawing, with a capital where a line begins.

plan-fitting-liquid_a = Liquide A
plan-fitting-liquid_b = Liquide B
plan-fitting-vapour = Vapeur
plan-fitting-vapour_two = Vapeur 2
plan-fitting-gauging_device = Jauge
plan-fitting-thermometer_well = Puits therm.
plan-fitting-sample_line = Échantillon
plan-fitting-relief_device = Soupape de sûreté
plan-valve-open = Ouvert
plan-valve-shut = Fermé
plan-closure-tool_tight = serré
plan-closure-hand_tight = à la main
plan-closure-open = retiré
plan-hose = flexible
plan-leaking = Fuite
plan-differ = divergence
plan-label = Plan des accessoires sous l’enceinte protectrice. La liste des accessoires le dit en mots.
plan-a-end = Bout A
plan-b-end = Bout B
plan-foot = 1 pied
plan-typical = plan typique
plan-cover-unknown = Couvercle : ?
plan-cover-open = Couvercle ouvert
plan-cover-closed = Couvercle fermé
plan-pin-out = Goupille retirée
plan-bolts = { $there } boulons sur { $wanted }

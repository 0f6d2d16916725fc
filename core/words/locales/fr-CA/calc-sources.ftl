### What results rest on. Publications stay as they are cited.

calc-source-several = { $parts }
calc-source-base = { $source }, base { $base }
calc-source-from-memory = { $source }, de mémoire
calc-source-ratio = rapport des masses volumiques du liquide saturé
calc-source-gauged = tel que jaugé
calc-source-vapor = vapeur : { $source }
calc-source-two-readings = différence de deux lectures d’un même manomètre
calc-source-difference = différence de deux quantités; incertitude JCGM 100:2008
calc-source-weight-vacuum = densité relative × eau à 60 °F : 999,016 kg/m³, 8,33719 lb/gal dans le vide, 8,32828 lb/gal dans l’air (pratique 29 CFR / WAC); cette valeur dans le vide
calc-source-weight-air = densité relative × eau à 60 °F : 999,016 kg/m³, 8,33719 lb/gal dans le vide, 8,32828 lb/gal dans l’air (pratique 29 CFR / WAC); cette valeur dans l’air
calc-source-geometry = géométrie : cylindre horizontal à deux fonds sphéroïdaux, formule fermée; gallon de 231 po³
calc-source-owner-table = table de creux du propriétaire, lue par interpolation cubique monotone (Hyman, SIAM J. Sci. Stat. Comput. 4 (1983) 645–654)
calc-source-mixing = mélange par GERG-2008, Kunz & Wagner, J. Chem. Eng. Data 57 (2012) 3032–3091
calc-source-propylene-pairs = paires de propylène par Bell & Lemmon, J. Chem. Eng. Data 61 (2016) 3752–3760
calc-source-atmosphere = atmosphère ISO 2533:1975
calc-source-gauge-and-air = manomètre + atmosphère, ISO 2533:1975
calc-source-outage-limits = limites 49 CFR 173.314(c), notes 9 et 10 (lues), réglables
calc-source-density-of-site = densité de remplissage fixée par le site
calc-source-level-of-site = limite de niveau fixée par le site
calc-source-water = eau { $density }
calc-source-ideal-gas = gaz parfait à volume constant
calc-source-slope-of-readings = pente de Theil–Sen des lectures, P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379–1389
calc-source-closing-torque = pente de Theil–Sen, P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379–1389; intervalle du couple de fermeture : pratique courante, sans source

### What results rest on. Publications stay as they are cited.

calc-source-several = { $parts }
calc-source-base = { $source }, base { $base }
calc-source-from-memory = { $source }, de memoria
calc-source-ratio = razón de densidades del líquido saturado
calc-source-gauged = como se midió
calc-source-vapor = vapor: { $source }
calc-source-two-readings = diferencia de dos lecturas de un mismo manómetro
calc-source-difference = diferencia de dos cantidades; incertidumbre JCGM 100:2008
calc-source-weight-vacuum = densidad relativa × agua a 60 °F: 999.016 kg/m³, 8.33719 lb/gal al vacío, 8.32828 lb/gal en aire (práctica 29 CFR / WAC); este valor al vacío
calc-source-weight-air = densidad relativa × agua a 60 °F: 999.016 kg/m³, 8.33719 lb/gal al vacío, 8.32828 lb/gal en aire (práctica 29 CFR / WAC); este valor en aire
calc-source-geometry = geometría: cilindro horizontal con dos tapas esferoidales, fórmula cerrada; galón de 231 pulg³
calc-source-owner-table = tabla de espacios vacíos del propietario, leída por interpolación cúbica monótona (Hyman, SIAM J. Sci. Stat. Comput. 4 (1983) 645–654)
calc-source-mixing = mezcla por GERG-2008, Kunz & Wagner, J. Chem. Eng. Data 57 (2012) 3032–3091
calc-source-propylene-pairs = pares con propileno por Bell & Lemmon, J. Chem. Eng. Data 61 (2016) 3752–3760
calc-source-atmosphere = atmósfera ISO 2533:1975
calc-source-gauge-and-air = manómetro + atmósfera, ISO 2533:1975
calc-source-outage-limits = límites 49 CFR 173.314(c), notas 9 y 10 (leídas), ajustables
calc-source-density-of-site = densidad de llenado fijada por el sitio
calc-source-level-of-site = límite de nivel fijado por el sitio
calc-source-water = agua { $density }
calc-source-ideal-gas = gas ideal a volumen constante
calc-source-slope-of-readings = pendiente de Theil–Sen de las lecturas, P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379–1389
calc-source-closing-torque = pendiente de Theil–Sen, P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379–1389; intervalo del par de apriete para cerrar: práctica común, sin fuente

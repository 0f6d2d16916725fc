### What results rest on. Publications stay as they are cited.

calc-source-several = { $parts }
calc-source-base = { $source }, base { $base }
calc-source-from-memory = { $source }, from memory
calc-source-ratio = saturated liquid density ratio
calc-source-gauged = as gauged
calc-source-vapor = vapor: { $source }
calc-source-two-readings = difference of two readings of one gauge
calc-source-difference = difference of two quantities; uncertainty JCGM 100:2008
calc-source-weight-vacuum = relative density × water at 60 °F: 999.016 kg/m³, 8.33719 lb/gal in vacuum, 8.32828 lb/gal in air (29 CFR / WAC practice); this value in vacuum
calc-source-weight-air = relative density × water at 60 °F: 999.016 kg/m³, 8.33719 lb/gal in vacuum, 8.32828 lb/gal in air (29 CFR / WAC practice); this value in air
calc-source-geometry = geometry: horizontal cylinder with two spheroidal heads, closed form; gallon of 231 in³
calc-source-owner-table = owner’s outage table, read by monotone cubic interpolation (Hyman, SIAM J. Sci. Stat. Comput. 4 (1983) 645–654)
calc-source-mixing = mixing by GERG-2008, Kunz & Wagner, J. Chem. Eng. Data 57 (2012) 3032–3091
calc-source-propylene-pairs = propylene pairs by Bell & Lemmon, J. Chem. Eng. Data 61 (2016) 3752–3760
calc-source-atmosphere = atmosphere ISO 2533:1975
calc-source-gauge-and-air = gauge + atmosphere, ISO 2533:1975
calc-source-outage-limits = limits 49 CFR 173.314(c), notes 9 and 10 (read), configurable
calc-source-density-of-site = filling density set by the site
calc-source-level-of-site = level limit set by the site
calc-source-water = water { $density }
calc-source-ideal-gas = ideal gas at constant volume
calc-source-slope-of-readings = Theil–Sen slope of the readings, P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379–1389
calc-source-closing-torque = Theil–Sen slope, P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379–1389; band of closing torque: common practice, no source

### C

office-chart-label = Chart. The table of readings has the values.
office-chart-elsewhere =
    { $count ->
        [one] { $count } reading of another time not drawn
       *[other] { $count } readings of another time not drawn
    }
office-chart-over = H over
office-chart-short = H short
office-chart-no-signal = No sum passes its interval.
office-chart-signal = A sum passes its interval at { $car }.
office-chart-signals =
    { $count ->
        [one] A sum passes its interval first at { $car }, and { $count } more time after it starts again at 0.
       *[other] A sum passes its interval first at { $car }, and { $count } more times after it starts again at 0.
    }
office-chart-sums =
    { $count ->
        [one] Cumulative sums of { $name } over { $count } car. { $says }
       *[other] Cumulative sums of { $name } over { $count } cars. { $says }
    }
office-chart-read = Dots: difference of each car. { $says } Reference value K { $reference } gal, decision interval H { $interval } gal, σ of one car { $sigma } gal.

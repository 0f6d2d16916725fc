### Papers that the office sent to a site: where they were read, and what differs from them.

paper-source = { $file }, line { $line }, sent by { $by }, { $at }
paper-differs = { $fact }: { $here } recorded, { $there } in the file
paper_fact-car = car
paper_fact-number = number of the paper
paper_fact-un_number = UN number
paper_fact-billed = billed quantity
paper_fact-relative_density = relative density
paper_fact-odorised = odorized
paper_fact-grade = grade
paper_fact-billed_by = measured by
paper_fact-winter_fill = filled to winter limits
paper_odorized-yes = yes
paper_odorized-no = no

package live

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"time"

	"tautline/runner/trial"
)

// measure keeps a reading of a trial beside the notebook.
func (b *book) measure(o order) error {
	if b.desk.options.ReadOnly {
		return errors.New("this desk is read-only: no reading is kept")
	}
	st := b.state.Load()
	if st.run == nil || st.run.page == nil || !st.run.good {
		return errors.New("the notebook has not run: a reading needs what it predicts")
	}
	trials := st.run.page.Trials
	i := slices.IndexFunc(trials, func(t Trial) bool { return t.Name == o.Name })
	if i < 0 {
		return fmt.Errorf("the notebook has no trial %q any more", o.Name)
	}
	r := trial.Reading{Trial: o.Name, Who: o.Who, When: time.Now(), Instrument: o.Instrument, Note: o.Note}
	var err error
	if r.Number, r.Unit, err = trial.Entered(o.Number, trials[i].Unit); err != nil {
		return err
	}
	file, err := filepath.EvalSymlinks(b.file)
	if err != nil {
		return fmt.Errorf("%s: it is not there any more", b.file)
	}
	if err := trial.Append(trial.File(file), r); err != nil {
		return fmt.Errorf("the reading is not kept: %w", err)
	}
	return nil // the watch sees it
}

// measurable is a trial as the page offers it.
type measurable struct {
	Name       string `json:"name"`
	Predicted  string `json:"predicted"`
	Standing   string `json:"standing"`
	Instrument string `json:"instrument"`
	Unit       string `json:"unit"`
}

func measurables(trials []Trial) []measurable {
	var all []measurable
	for _, t := range trials {
		all = append(all, measurable{t.Name, t.Predicted, t.Standing, t.Instrument, t.Unit.Symbol})
	}
	return all
}

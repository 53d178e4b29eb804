package main

import (
	"context"
	"fmt"
	"log/slog"

	"fettle/store"
)

// tidy tells which files of photos no log needs and which are missing, and removes what is not needed only
// where that is asked for.
func (p program) tidy(ctx context.Context, args []string) error {
	set := flags("tidy")
	data := p.dataFlag(set)
	remove := set.Bool("remove", false, "remove for good what no entry of a log shows")
	switch rest, err := p.parse(set, args); {
	case err != nil:
		return err
	case len(rest) > 0:
		return usageError{"call fettle tidy [-data FOLDER] [-remove]"}
	}
	s, err := data.open(ctx)
	if err != nil {
		return err
	}
	defer s.Close()
	report, err := s.CheckPhotos(ctx)
	if err != nil {
		return err
	}
	p.tellPhotos(report)
	if !*remove || len(report.Orphans)+len(report.Unfinished) == 0 {
		return nil
	}
	removed, err := s.RemoveOrphans(ctx)
	fmt.Fprintf(p.stdout, "removed: %d photos, %d unfinished files\n", len(removed.Orphans), len(removed.Unfinished))
	return err
}

func (p program) tellPhotos(report store.PhotoReport) {
	for _, sum := range report.Missing {
		fmt.Fprintf(p.stderr, "fettle: the file of photo %s is missing; a backup may have it\n", sum)
	}
	for _, sum := range report.Orphans {
		fmt.Fprintf(p.stdout, "no entry of a log shows photo %s\n", sum)
	}
	for _, path := range report.Unfinished {
		fmt.Fprintf(p.stdout, "never finished: %s\n", path)
	}
	switch n := len(report.Orphans) + len(report.Unfinished); {
	case n > 0:
		fmt.Fprintf(p.stdout, "%d files that no log needs; fettle tidy -remove removes them for good\n", n)
	default:
		fmt.Fprintln(p.stdout, "no file of a photo is left over")
	}
}

// readyPhotos makes final what was deleted from the logs long ago, and tells which photos are not as the logs have
// them. It removes no photo.
func readyPhotos(ctx context.Context, kept *store.Store, log *slog.Logger) (report store.PhotoReport, err error) {
	purged, err := kept.PurgeLog(ctx)
	if err != nil {
		return report, err
	}
	if purged > 0 {
		log.Info("deleted entries of the log are final", "entries", purged)
	}
	report, err = kept.CheckPhotos(ctx)
	if err != nil {
		return report, err
	}
	for _, sum := range report.Missing {
		log.Warn("the file of a photo is missing", "photo", sum)
	}
	if n := len(report.Orphans) + len(report.Unfinished); n > 0 {
		log.Info("files that no entry of a log shows; they are left", "photos", len(report.Orphans), "unfinished", len(report.Unfinished))
	}
	return report, nil
}

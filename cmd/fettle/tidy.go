package main

import (
	"context"
	"log/slog"

	"fettle/store"
)

// tidy makes final what was deleted from the logs long ago, and tells which photos are not as the logs have
// them. It removes no photo.
func tidy(ctx context.Context, kept *store.Store, log *slog.Logger) (report store.PhotoReport, err error) {
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

"""The one style sheet; `@name` stands for a colour of the theme."""

SHEET = """
QLabel[scale="small"] { font-size: 13px; }
QLabel[scale="body"] { font-size: 16px; }
QLabel[scale="head"] { font-size: 22px; font-weight: bold; }
QLabel[scale="big"] { font-size: 36px; font-weight: bold; }
QLabel[tone="muted"] { color: @muted; }
QLabel[tone="accent"] { color: @accent; }
QLabel[tone="ink"] { color: @ink; }

QFrame[surface="card"] { background: @card; border: 1px solid @line; border-radius: 8px; }
QFrame[surface="card"]:focus { border: 2px solid @accent; }
QFrame[surface="tape"] { background: @tape; border: 1px solid @line; border-radius: 4px; }
QFrame[surface="field"] { background: @card; border: 2px solid @ink; border-radius: 8px; }

QFrame[surface="field"][lit="true"] { border-color: @accent; }

QPushButton {
    min-height: 40px; padding: 0 18px; border-radius: 6px;
    border: 2px solid @ink; background: @card; color: @ink; outline: none;
}
QPushButton:hover { background: @tape; }
QPushButton:pressed { background: @line; }
QPushButton:checked { border-color: @accent; background: @tape; }
QPushButton:focus { border: 3px solid @accent; padding: 0 17px; }
QPushButton:disabled { color: @muted; border-color: @line; }
QPushButton[role="primary"] {
    background: @accent; color: @on_accent; border-color: @accent; font-weight: bold;
}
QPushButton[role="primary"]:focus { border-color: @ink; }
QPushButton[role="primary"]:disabled { background: @line; color: @muted; border-color: @line; }
QPushButton[role="quiet"] { background: transparent; border-color: transparent; padding: 0 10px; }
QPushButton[role="quiet"]:hover { background: @tape; }
QPushButton[role="quiet"]:focus { border-color: @accent; padding: 0 9px; }

QPushButton[role="stage"] {
    background: transparent; color: @muted; padding: 0 8px; border: 2px solid transparent;
    border-bottom: 3px solid transparent; border-radius: 0; min-height: 38px;
}
QPushButton[role="stage"]:hover { color: @ink; }
QPushButton[role="stage"]:checked {
    color: @ink; border-bottom: 3px solid @accent; background: transparent;
}
QPushButton[role="stage"]:focus { border: 2px solid @accent; border-bottom: 3px solid @accent; }

QLineEdit, QPlainTextEdit, QTextEdit, QComboBox, QAbstractSpinBox {
    background: @card; color: @ink; border: 1px solid @muted; border-radius: 6px;
    padding: 0 9px; selection-background-color: @accent; selection-color: @on_accent;
}
QLineEdit, QPlainTextEdit, QTextEdit { placeholder-text-color: @muted; }
QLineEdit, QComboBox, QAbstractSpinBox { min-height: 42px; }
QPlainTextEdit, QTextEdit { padding: 6px 5px; }
QLineEdit:focus, QPlainTextEdit:focus, QTextEdit:focus, QComboBox:focus, QAbstractSpinBox:focus {
    border: 2px solid @accent; padding: 0 8px;
}
QPlainTextEdit:focus, QTextEdit:focus { padding: 5px 4px; }
QLineEdit[bare="true"] { border: none; background: transparent; padding: 0; }
QComboBox::drop-down { border: none; width: 28px; }
QComboBox QAbstractItemView { background: @card; border: 1px solid @muted; }

QCheckBox, QRadioButton { min-height: 44px; spacing: 10px; }
QCheckBox:focus, QRadioButton:focus { color: @accent; }

QAbstractItemView { background: @card; border: 1px solid @line; border-radius: 6px; outline: none; }
QAbstractItemView::item { min-height: 40px; padding: 0 8px; color: @ink; }
QAbstractItemView::item:selected { background: @tape; color: @ink; }
QAbstractItemView:focus { border: 2px solid @accent; }
QTableView[bare="true"], QListView[bare="true"] { background: transparent; border: none; }
QTableView[bare="true"]::item:selected { background: @paper; }
QScrollArea { border: none; background: transparent; }
QScrollArea[ring="true"] { border: 2px solid transparent; border-radius: 4px; }
QScrollArea[ring="true"]:focus { border-color: @accent; }
QScrollArea > QWidget > QWidget[bare="true"] { background: transparent; }
QHeaderView::section {
    background: @paper; color: @muted; border: none; border-bottom: 1px solid @line; padding: 6px;
}
QScrollBar:vertical { width: 14px; background: transparent; }
QScrollBar:horizontal { height: 14px; background: transparent; }
QScrollBar::handle { background: @line; border: 3px solid transparent; border-radius: 6px; }
QScrollBar::handle:vertical { min-height: 44px; }
QScrollBar::handle:horizontal { min-width: 44px; }
QScrollBar::handle:hover { background: @muted; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: none; }
QProgressBar { border: 1px solid @line; border-radius: 6px; background: @card; text-align: center; }
QProgressBar::chunk { background: @accent; border-radius: 5px; }
QMenu { background: @card; border: 1px solid @line; }
QMenu::item { padding: 10px 18px; }
QMenu::item:selected { background: @tape; color: @ink; }
QToolTip { background: @tape; color: @ink; border: 1px solid @line; padding: 6px; }
"""
